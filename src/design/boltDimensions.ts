import { acrossCornersMm, type FastenerPiece, type FastenerSize, readFastenerSize } from './fastenerSizes.ts';
import type { Entry } from './schema.ts';

/** What bears on a bolt: what it measures, mm, and the standard of whose table its height is the most; undefined where given. */
interface BoltPiece extends Pick<FastenerPiece, 'acrossMm' | 'heightMm'> {
  heightBy: string | undefined;
}

/** A head or nut, and the circle within which it turns. mm. */
export interface TurnedPiece extends BoltPiece {
  hex: boolean;
  /** Diameter of the circle through the corners of a hexagon; that of a round head itself. */
  roundMm: number;
}

/** Its thickness at least besides: under the thinnest washer a bolt reaches furthest through. */
export interface WasherPiece extends BoltPiece {
  leastHeightMm: number;
}

/** The dimensions of a set of bolts, those that its entry gives before those of the tables. */
export interface BoltDimensions {
  size: FastenerSize;
  /** Undefined of nuts on studs. */
  head: TurnedPiece | undefined;
  nut: TurnedPiece | undefined;
  washer: WasherPiece | undefined;
}

/** The dimensions of a set of bolts. Throws an Error with one sentence for a size or a head that no table has. */
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
          heightBy: bolts.washerThickness === undefined ? size.washer.standard : undefined,
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
    heightBy: height === undefined ? table?.standard : undefined,
    roundMm: hex ? acrossCornersMm(acrossMm) : acrossMm,
  };
}
