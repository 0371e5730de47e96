import { cos } from '../../math/sine.ts';

/**
 * A head, nut or washer, mm: width across flats of a hexagon or diameter of a round piece, and height along the bolt. Both
 * are the largest that the standard allows; real ones are smaller.
 */
export interface FastenerPiece {
  acrossMm: number;
  heightMm: number;
  /** The standard that sets these limits. */
  standard: string;
}

/** The published dimensions of one bolt size, mm. */
export interface FastenerSize {
  /** As usually written: "M12", "1/2 in". */
  name: string;
  diameterMm: number;
  /** Pitch of the coarse thread. */
  pitchMm: number;
  hexHead: FastenerPiece;
  /** Diameter over the knurl and height; undefined if the standard does not have this size. */
  socketHead: FastenerPiece | undefined;
  nut: FastenerPiece;
  /** With the least thickness that the standard allows: under a thin washer a bolt reaches further through. */
  washer: FastenerPiece & { leastHeightMm: number };
  /** Diameter of the clearance hole: ISO 273 medium, ASME B18.2.8 normal. */
  clearanceHoleMm: number;
}

/**
 * Metric sizes: d; coarse pitch (ISO 261); width across flats; greatest height of a hexagon head (ISO 4014 and 4017, product
 * grade B, as a maker's table prints it from M10 up; below M10, nominal plus the same class of tolerance, js15, from memory);
 * greatest height of a hexagon nut (ISO 4032); diameter, greatest and least thickness of a washer (ISO 7089; the least
 * thickness, and everything of M22, from memory); greatest diameter of a socket head over the knurl (ISO 4762); clearance
 * hole (ISO 273, medium). Widths across flats are those of ISO 272: DIN 931 and 933 have 17, 19, 22, 32 mm for M10, M12,
 * M14, M22. Knurled heads other than M8 to M12 are from memory.
 */
const METRIC: readonly (readonly [
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
  [6, 1, 10, 4.24, 5.2, 12, 1.8, 1.4, 10.22, 6.6],
  [8, 1.25, 13, 5.54, 6.8, 16, 1.8, 1.4, 13.27, 9],
  [10, 1.5, 16, 6.69, 8.4, 20, 2.2, 1.8, 16.27, 11],
  [12, 1.75, 18, 7.79, 10.8, 24, 2.7, 2.3, 18.27, 13.5],
  [14, 2, 21, 9.09, 12.8, 28, 2.7, 2.3, 21.33, 15.5],
  [16, 2, 24, 10.29, 14.8, 30, 3.3, 2.7, 24.33, 17.5],
  [18, 2.5, 27, 11.85, 15.8, 34, 3.3, 2.7, Number.NaN, 20],
  [20, 2.5, 30, 12.85, 18, 37, 3.3, 2.7, 30.33, 22],
  [22, 2.5, 34, 14.35, 19.4, 39, 3.3, 2.7, Number.NaN, 24],
  [24, 3, 36, 15.35, 21.5, 44, 4.3, 3.7, 36.39, 26],
];

const METRIC_STANDARDS = {
  hexHead: 'ISO 4014 and 4017',
  socketHead: 'ISO 4762',
  nut: 'ISO 4032',
  washer: 'ISO 7089',
};

/**
 * Inch sizes: name, diameter, threads per inch (UNC); width across flats and greatest height of a hex bolt's head (ASME
 * B18.2.1; for 9/16 in only the cap screw, whose head is lower); width across flats and greatest thickness of a hex nut
 * (ASME B18.2.2); greatest diameter, greatest and least thickness of a plain washer (ASME B18.21.1, type A, narrow);
 * greatest diameter of a socket head (ASME B18.3), mm; clearance hole (ASME B18.2.8, normal; it lacks 9/16 in, which is
 * taken a sixteenth larger, as its neighbours are), mm. All others are inches. Nuts and washers as in Machinery's Handbook,
 * 31st edition.
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
  number,
])[] = [
  ['3/8', 3 / 8, 16, 9 / 16, 0.268, 9 / 16, 0.337, 0.827, 0.08, 0.051, 14.2748, 10.3],
  ['7/16', 7 / 16, 14, 5 / 8, 0.316, 11 / 16, 0.385, 0.937, 0.08, 0.051, 16.6624, 11.9],
  ['1/2', 1 / 2, 13, 3 / 4, 0.364, 3 / 4, 0.448, 1.092, 0.121, 0.074, 19.05, 14.3],
  ['9/16', 9 / 16, 12, 13 / 16, 0.371, 7 / 8, 0.496, 1.186, 0.121, 0.074, Number.NaN, 15.9],
  ['5/8', 5 / 8, 11, 15 / 16, 0.444, 15 / 16, 0.559, 1.342, 0.121, 0.074, 23.8252, 17.5],
  ['3/4', 3 / 4, 10, 9 / 8, 0.524, 9 / 8, 0.665, 1.499, 0.16, 0.108, 28.575, 20.6],
];

const INCH_STANDARDS = {
  hexHead: 'ASME B18.2.1',
  socketHead: 'ASME B18.3',
  nut: 'ASME B18.2.2',
  washer: 'ASME B18.21.1 (type A, narrow)',
};

const MM = 25.4;

/** All known sizes, metric first, each from small to large. */
export const FASTENER_SIZES: readonly FastenerSize[] = [
  ...METRIC.map(([d, pitchMm, flats, head, nut, washer, thick, thin, socket, hole]) =>
    sized(METRIC_STANDARDS, {
      name: `M${d}`,
      diameterMm: d,
      pitchMm,
      hexHead: [flats, head],
      socketMm: socket,
      nut: [flats, nut],
      washer: [washer, thick, thin],
      clearanceHoleMm: hole,
    }),
  ),
  ...INCH.map(([name, d, threads, flats, head, nutFlats, nut, washer, thick, thin, socket, hole]) =>
    sized(INCH_STANDARDS, {
      name: `${name} in`,
      diameterMm: d * MM,
      pitchMm: MM / threads,
      hexHead: [flats * MM, head * MM],
      socketMm: socket,
      nut: [nutFlats * MM, nut * MM],
      washer: [washer * MM, thick * MM, thin * MM],
      clearanceHoleMm: hole,
    }),
  ),
];

interface Row extends Pick<FastenerSize, 'name' | 'diameterMm' | 'pitchMm' | 'clearanceHoleMm'> {
  /** Width and greatest height, mm; for a washer also the least height. */
  hexHead: [number, number];
  nut: [number, number];
  washer: [number, number, number];
  /** NaN if there is none. */
  socketMm: number;
}

function sized(
  standards: typeof METRIC_STANDARDS,
  { hexHead, nut, washer, socketMm, ...row }: Row,
): FastenerSize {
  const piece = ([acrossMm, heightMm]: readonly number[], standard: string) => ({
    acrossMm,
    heightMm,
    standard,
  });
  return {
    ...row,
    hexHead: piece(hexHead, standards.hexHead),
    socketHead: Number.isNaN(socketMm) ? undefined : piece([socketMm, row.diameterMm], standards.socketHead),
    nut: piece(nut, standards.nut),
    washer: { ...piece(washer, standards.washer), leastHeightMm: washer[2] },
  };
}

const TYPED_METRIC = /^M\s*(\d+(?:[.,]0+)?)(?:\s*[x×*-]\s*\d+(?:[.,]\d+)?)?$/i;
const TYPED_INCH = /^(\d+\s*\/\s*\d+)\s*(?:"|″|”|in\.?|inch)?(?:\s*-?\s*\d+)?(?:\s*UN[CFJ]?)?$/i;

/**
 * Reads a bolt size as typed: "M12", "m12 x 1.25", "1/2", "1/2 in", "1/2-20 UNF". The thread after the diameter changes no
 * dimension here. Throws an Error with one sentence that lists the known sizes.
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
  const what = name === undefined ? 'cannot be read as a bolt size' : 'is not a known bolt size';
  throw new Error(`${what}; write one of ${list}`);
}

/** Widths across flats of heads and nuts in DIN 931, 933 and 934 that exceed those of ISO, mm, by size. */
export const WIDER_BY_DIN_MM: Readonly<Record<string, number>> = { M10: 17, M12: 19, M14: 22 };

/** Width across the sharp corners of a hexagon, mm: width across flats / cos 30 degrees. Real corners are rounded. */
export const acrossCornersMm = (acrossFlatsMm: number): number => acrossFlatsMm / cos(Math.PI / 6);

/**
 * Least and greatest opening of a wrench for a hexagon, mm: 1.005 W + 0.001 in, and 0.005 W + 0.004 in more (ASME B18.2.2,
 * appendix, as Machinery's Handbook prints it; its table rounds to 0.001 in).
 */
export function wrenchOpeningMm(acrossFlatsMm: number): { least: number; most: number } {
  const least = 1.005 * acrossFlatsMm + 0.001 * MM;
  return { least, most: least + 0.005 * acrossFlatsMm + 0.004 * MM };
}
