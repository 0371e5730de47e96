import type { Entry } from '../schema.ts';
import { acrossCornersMm, type FastenerPiece, type FastenerSize, readFastenerSize } from './fastenerSizes.ts';

/** A head, nut or washer, mm. `heightStandard`: the standard that limits its height; undefined if the file gives the height. */
interface BoltPiece extends Pick<FastenerPiece, 'acrossMm' | 'heightMm'> {
  heightStandard: string | undefined;
}

/** A head or nut, with the circle in which it turns, mm. */
export interface TurnedPiece extends BoltPiece {
  hex: boolean;
  /** Diameter of the circle through a hexagon's corners, or of a round head. */
  roundMm: number;
}

/** A washer. `leastHeightMm`: its least thickness; with the thinnest washer a bolt reaches furthest. */
export interface WasherPiece extends BoltPiece {
  leastHeightMm: number;
}

/** Dimensions of a set of bolts: those in its entry, else those in the tables. */
export interface BoltDimensions {
  size: FastenerSize;
  /** Undefined for nuts on studs. */
  head: TurnedPiece | undefined;
  nut: TurnedPiece | undefined;
  washer: WasherPiece | undefined;
}

/** Dimensions of a set of bolts. Throws an Error with one sentence if no table has the size or the head. */
export function boltDimensions(bolts: Entry<'bolts'>): BoltDimensions {
  const size = readFastenerSize(bolts.size);
  const onStuds = bolts.joins === 'wheel';
  return {
    size,
    head: onStuds ? undefined : headOf(bolts, size),
    nut: onStuds || bolts.nut ? turned(true, bolts.nutAcross, bolts.nutHeight, size.nut) : undefined,
    washer: bolts.washers
      ? {
          acrossMm: bolts.washerDiameter ?? size.washer.acrossMm,
          heightMm: bolts.washerThickness ?? size.washer.heightMm,
          leastHeightMm: bolts.washerThickness ?? size.washer.leastHeightMm,
          heightStandard: bolts.washerThickness === undefined ? size.washer.standard : undefined,
        }
      : undefined,
  };
}

function headOf(bolts: Entry<'bolts'>, size: FastenerSize): TurnedPiece {
  const { head, headAcross, headHeight } = bolts;
  if (head === 'hex') return turned(true, headAcross, headHeight, size.hexHead);
  const { socketHead } = size;
  if (socketHead === undefined && (headAcross === undefined || headHeight === undefined))
    throw new Error(`no table has a socket head of ${size.name}: give headAcross and headHeight`);
  return turned(false, headAcross, headHeight, socketHead);
}

function turned(
  hex: boolean,
  across: number | undefined,
  height: number | undefined,
  table: FastenerPiece | undefined,
): TurnedPiece {
  const acrossMm = across ?? table?.acrossMm ?? 0;
  return {
    hex,
    acrossMm,
    heightMm: height ?? table?.heightMm ?? 0,
    heightStandard: height === undefined ? table?.standard : undefined,
    roundMm: hex ? acrossCornersMm(acrossMm) : acrossMm,
  };
}
