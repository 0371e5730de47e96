import type { FlatPlate } from '../../solids/flatPlates/flatPlate.ts';
import { tessellated } from '../../solids/flatPlates/loops.ts';
import { type Point2, pointToSide } from '../../solids/simplePolygon.ts';
import type { Figures } from '../figures.ts';

export const PROCESSES = ['plasma', 'laser'] as const;
export type CuttingProcess = (typeof PROCESSES)[number];

/** How a plate is cut. */
export interface Cutting {
  process: CuttingProcess | undefined;
  /** Width of the cut, mm. */
  kerfMm: number | undefined;
}

/** What a process can cut, as multiples of the plate's thickness, with its sources. */
interface ProcessLimits {
  leastHole: number;
  leastWeb: number;
  kerfMm: readonly [number, number];
  source: string;
}

/**
 * Plasma: hole and spacing of 1.5 thicknesses, kerf 1.5 to 3.5 mm (newayprecision.com). Laser: hole and distance to an edge
 * of one thickness (smslaserfab.com, laser cutting design rules), kerf 0.1 to 0.5 mm (ironkit).
 */
const LIMITS: Record<CuttingProcess, ProcessLimits> = {
  plasma: { leastHole: 1.5, leastWeb: 1.5, kerfMm: [1.5, 3.5], source: 'newayprecision.com' },
  laser: { leastHole: 1, leastWeb: 1, kerfMm: [0.1, 0.5], source: 'smslaserfab.com and ironkit' },
};

/**
 * Warnings of holes that the process cannot cut well: too small, or with too little metal to an edge or to another hole. A
 * hole whose diameter is unknown is taken as large as its bolt. And what the width of the cut does to the sizes.
 */
export function cuttingNotes(plate: FlatPlate, { process, kerfMm }: Cutting, figures: Figures): string[] {
  return [
    ...(process === undefined ? [] : limitNotes(plate, process, figures)),
    kerfNote(process, kerfMm, figures),
  ];
}

/** A hole or opening, with the polygon of its edge. */
interface CutHole {
  name: string;
  diameterMm: number | undefined;
  edge: readonly Point2[];
}

function limitNotes(plate: FlatPlate, process: CuttingProcess, figures: Figures): string[] {
  const { leastHole, leastWeb, source } = LIMITS[process];
  const { thicknessMm } = plate;
  const holes: CutHole[] = [
    ...plate.openings.map(({ loop, use }) => ({
      name: use,
      diameterMm: loop.kind === 'circle' ? 2 * loop.radiusMm : undefined,
      edge: tessellated(loop),
    })),
    ...plate.holes.map(({ at, boltMm, cut, use }, i) => {
      const diameterMm = cut.diameterMm ?? boltMm;
      return {
        name: `hole ${i + 1} (${use})`,
        diameterMm,
        edge: tessellated({ kind: 'circle', centre: at, radiusMm: diameterMm / 2 }),
      };
    }),
  ];
  const outline = tessellated(plate.outline);
  const wanted = (times: number) =>
    `${times} times the thickness, ${figures.givenWithUnit(times * thicknessMm)} (${source})`;
  const small = holes
    .filter(({ diameterMm }) => diameterMm !== undefined && diameterMm < leastHole * thicknessMm)
    .map(
      ({ name, diameterMm = 0 }) =>
        `${name}: ${figures.givenWithUnit(diameterMm)} across is too small for ${process}: at least ${wanted(leastHole)}. Mark it and drill it.`,
    );
  const near = holes.flatMap(({ name, edge }, i) => {
    const others = [
      { name: 'the edge', edge: outline },
      ...holes.slice(i + 1).map((other) => ({ name: other.name, edge: other.edge })),
    ];
    return others
      .map((other) => ({ name: other.name, webMm: edgeGapMm(edge, other.edge) }))
      .filter(({ webMm }) => webMm < leastWeb * thicknessMm)
      .map(
        (other) =>
          `${name}: ${figures.givenWithUnit(other.webMm)} of metal to ${other.name} is too little for ${process}: at least ${wanted(leastWeb)}.`,
      );
  });
  return [...small, ...near];
}

/** Distance between two edges that do not cross, mm. */
function edgeGapMm(a: readonly Point2[], b: readonly Point2[]): number {
  const oneWay = (from: readonly Point2[], to: readonly Point2[]) =>
    from.reduce(
      (least, at) =>
        to.reduce(
          (nearest, side, k) => Math.min(nearest, pointToSide(at, side, to[(k + 1) % to.length])),
          least,
        ),
      Number.POSITIVE_INFINITY,
    );
  return Math.min(oneWay(a, b), oneWay(b, a));
}

function kerfNote(process: CuttingProcess | undefined, kerfMm: number | undefined, figures: Figures): string {
  const finished = 'All lines are finished sizes, without allowance for the width of the cut.';
  if (kerfMm !== undefined)
    return `${finished} With a cut ${figures.givenWithUnit(kerfMm)} wide, move the tool's path ${figures.givenWithUnit(kerfMm / 2)} outside the outline and ${figures.givenWithUnit(kerfMm / 2)} inside each hole. If not, the plate is ${figures.givenWithUnit(kerfMm)} smaller and each hole ${figures.givenWithUnit(kerfMm)} larger.`;
  if (process === undefined) return finished;
  const {
    kerfMm: [least, most],
    source,
  } = LIMITS[process];
  return `${finished} A ${process} cut is ${figures.given(least)} to ${figures.givenWithUnit(most)} wide (${source}): have the shop set the offset.`;
}
