import { acrossCornersMm, type FastenerPiece, type FastenerSize, readFastenerSize } from './fastenerSizes.ts';
import type { Entry } from './schema.ts';

/** A head or nut: what it measures, and the circle within which it turns. mm. */
export interface TurnedPiece extends FastenerPiece {
  hex: boolean;
  /** Diameter of the circle through the corners of a hexagon; that of a round head itself. */
  roundMm: number;
}

/** The dimensions of a set of bolts, those that its entry gives before those of the tables. */
export interface BoltDimensions {
  size: FastenerSize;
  /** Undefined of nuts on studs. */
  head: TurnedPiece | undefined;
  nut: TurnedPiece | undefined;
  washer: FastenerPiece | undefined;
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
  return turned(false, headAcross, headHeight, socketHead ?? { acrossMm: 0, heightMm: 0 });
}

function turned(
  hex: boolean,
  across: number | undefined,
  height: number | undefined,
  table: FastenerPiece,
): TurnedPiece {
  const acrossMm = across ?? table.acrossMm;
  return {
    hex,
    acrossMm,
    heightMm: height ?? table.heightMm,
    roundMm: hex ? acrossCornersMm(acrossMm) : acrossMm,
  };
}
