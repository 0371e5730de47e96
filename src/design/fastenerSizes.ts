import { cos } from '../math/sine.ts';

/** A head, nut or washer: across flats of a hexagon, diameter of what is round; its height along the bolt. mm. */
export interface FastenerPiece {
  acrossMm: number;
  heightMm: number;
}

/** The published dimensions of one bolt size, mm. */
export interface FastenerSize {
  /** As people write it: "M12", "1/2 in". */
  name: string;
  diameterMm: number;
  /** Of its coarse thread. */
  pitchMm: number;
  hexHead: FastenerPiece;
  /** Diameter over the knurl and height; undefined where the standard has no such size. */
  socketHead: FastenerPiece | undefined;
  nut: FastenerPiece;
  washer: FastenerPiece;
  /** Diameter of the clearance hole: ISO 273 medium, ASME B18.2.8 normal. */
  clearanceHoleMm: number;
}

/**
 * Metric sizes: d, coarse pitch (ISO 261); across flats and nominal head height of a hexagon bolt (ISO 4014: heads may
 * stand up to 0.4 mm higher, from memory); height of a hexagon nut at most (ISO 4032); diameter and thickness of a
 * washer at most (ISO 7089); socket head over the knurl at most (ISO 4762); clearance hole (ISO 273, medium). Across
 * flats is that of ISO 272: DIN 931 and 933 have 17, 19, 22 mm for M10, M12, M14. Pitches and knurled heads other than
 * M8 to M12 are from memory.
 */
const METRIC: readonly (readonly [number, number, number, number, number, number, number, number, number])[] =
  [
    [6, 1, 10, 4, 5.2, 12, 1.8, 10.22, 6.6],
    [8, 1.25, 13, 5.3, 6.8, 16, 1.8, 13.27, 9],
    [10, 1.5, 16, 6.4, 8.4, 20, 2.2, 16.27, 11],
    [12, 1.75, 18, 7.5, 10.8, 24, 2.7, 18.27, 13.5],
    [14, 2, 21, 8.8, 12.8, 28, 2.7, 21.33, 15.5],
    [16, 2, 24, 10, 14.8, 30, 3.3, 24.33, 17.5],
    [18, 2.5, 27, 11.5, 15.8, 34, 3.3, Number.NaN, 20],
    [20, 2.5, 30, 12.5, 18, 37, 3.3, 30.33, 22],
    [24, 3, 36, 15, 21.5, 44, 4.3, 36.39, 26],
  ];

/**
 * Inch sizes: name, threads an inch (UNC); across flats and basic head height of a hex bolt (ASME B18.2.1: a cap
 * screw's head is up to 1.2 mm lower); across flats and basic height of a hex nut (ASME B18.2.2); diameter and thickness
 * of a narrow plain washer (ASME B18.21.1, type B) in mm; socket head at most, mm (ASME B18.3); clearance hole (ASME
 * B18.2.8, normal), mm. What is not said to be mm is inches.
 */
const INCH: readonly (readonly [
  string,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
])[] = [
  ['3/8', 3 / 8, 16, 9 / 16, 1 / 4, 9 / 16, 21 / 64, 18.6436, 1.6002, 14.2748, 10.3],
  ['7/16', 7 / 16, 14, 5 / 8, 19 / 64, 11 / 16, 3 / 8, 22.225, 1.6002, 16.6624, 11.9],
  ['1/2', 1 / 2, 13, 3 / 4, 11 / 32, 3 / 4, 7 / 16, 25.4, 1.6002, 19.05, 14.3],
  ['5/8', 5 / 8, 11, 15 / 16, 27 / 64, 15 / 16, 35 / 64, 31.75, 2.54, 23.8252, 17.5],
  ['3/4', 3 / 4, 10, 9 / 8, 1 / 2, 9 / 8, 41 / 64, 34.925, 2.54, 28.575, 20.6],
];

const MM = 25.4;

/** Every size that is known, metric first, each from small to large. */
export const FASTENER_SIZES: readonly FastenerSize[] = [
  ...METRIC.map(
    ([d, pitchMm, flats, head, nut, washer, thick, socket, hole]): FastenerSize => ({
      name: `M${d}`,
      diameterMm: d,
      pitchMm,
      hexHead: { acrossMm: flats, heightMm: head },
      socketHead: Number.isNaN(socket) ? undefined : { acrossMm: socket, heightMm: d },
      nut: { acrossMm: flats, heightMm: nut },
      washer: { acrossMm: washer, heightMm: thick },
      clearanceHoleMm: hole,
    }),
  ),
  ...INCH.map(
    ([name, d, threads, flats, head, nutFlats, nut, washer, thick, socket, hole]): FastenerSize => ({
      name: `${name} in`,
      diameterMm: d * MM,
      pitchMm: MM / threads,
      hexHead: { acrossMm: flats * MM, heightMm: head * MM },
      socketHead: { acrossMm: socket, heightMm: d * MM },
      nut: { acrossMm: nutFlats * MM, heightMm: nut * MM },
      washer: { acrossMm: washer, heightMm: thick },
      clearanceHoleMm: hole,
    }),
  ),
];

const TYPED_METRIC = /^M\s*(\d+(?:[.,]0+)?)(?:\s*[x×*-]\s*\d+(?:[.,]\d+)?)?$/i;
const TYPED_INCH = /^(\d+\s*\/\s*\d+)\s*(?:"|″|”|in\.?|inch)?(?:\s*-?\s*\d+)?(?:\s*UN[CFJ]?)?$/i;

/**
 * Reads a bolt size as typed: "M12", "m12 x 1.25", "1/2", "1/2 in", "1/2-20 UNF". What follows the diameter names a
 * thread and changes no dimension here. Throws an Error with one sentence that lists the sizes that are known.
 */
export function readFastenerSize(typed: string): FastenerSize {
  const text = typed.trim();
  const metric = TYPED_METRIC.exec(text)?.[1];
  const inch = TYPED_INCH.exec(text)?.[1];
  const name =
    metric !== undefined
      ? `M${Number(metric.replace(',', '.'))}`
      : inch !== undefined
        ? `${inch.replace(/\s/g, '')} in`
        : undefined;
  const known = FASTENER_SIZES.find((size) => size.name === name);
  if (known !== undefined) return known;
  const list = FASTENER_SIZES.map((size) => size.name).join(', ');
  const what =
    name === undefined ? 'is not a bolt size that can be read' : 'is not a bolt size that is known';
  throw new Error(`${what}; write one of ${list}`);
}

/** Across the corners of a hexagon, sharp: its across flats over cos 30 degrees. Real corners are rounded and lie inside. */
export const acrossCornersMm = (acrossFlatsMm: number): number => acrossFlatsMm / cos(Math.PI / 6);

/**
 * Least and greatest opening of a wrench for a hexagon, mm: 1.005 W + 0.001 in, and 0.005 W + 0.004 in more (ASME B18.2.2,
 * appendix, as Machinery's Handbook prints it; its table rounds to 0.001 in).
 */
export function wrenchOpeningMm(acrossFlatsMm: number): { least: number; most: number } {
  const least = 1.005 * acrossFlatsMm + 0.001 * MM;
  return { least, most: least + 0.005 * acrossFlatsMm + 0.004 * MM };
}
