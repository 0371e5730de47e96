import type { FlatPlate, Loop } from '../../solids/flatPlates/flatPlate.ts';
import { loopGapMm, tessellated } from '../../solids/flatPlates/loops.ts';
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

/** A hole or opening. */
interface CutHole {
  name: string;
  loop: Loop;
}

/**
 * Warnings of holes that the process cannot cut well: too small, or with too little metal to an edge or to another hole. A
 * hole whose diameter is unknown is taken as large as its bolt. None if no process is given.
 */
export function cuttingWarnings(plate: FlatPlate, { process }: Cutting, figures: Figures): string[] {
  if (process === undefined) return [];
  const { leastHole, leastWeb, source } = LIMITS[process];
  const { thicknessMm } = plate;
  const holes: CutHole[] = [
    ...plate.openings.map(({ loop, use }) => ({ name: `Opening (${use})`, loop })),
    ...plate.holes.map(({ at, boltMm, cut }, i) => ({
      name: `Hole ${i + 1}`,
      loop: { kind: 'circle', centre: at, radiusMm: (cut.diameterMm ?? boltMm) / 2 } as const,
    })),
  ];
  const wanted = (times: number) =>
    `${times} times the thickness, ${figures.givenWithUnit(times * thicknessMm)} (${source})`;
  const small = holes.flatMap(({ name, loop }) =>
    loop.kind === 'circle' && 2 * loop.radiusMm < leastHole * thicknessMm
      ? [
          `${name}: ${figures.givenWithUnit(2 * loop.radiusMm)} across is too small for ${process}: at least ${wanted(leastHole)}. Mark it and drill it.`,
        ]
      : [],
  );
  const near = holes.flatMap(({ name, loop }, i) =>
    [{ name: 'the edge', loop: plate.outline }, ...holes.slice(i + 1)]
      .map((other) => ({ name: other.name, webMm: webMm(loop, other.loop) }))
      .filter((other) => other.webMm < leastWeb * thicknessMm)
      .map(
        (other) =>
          `${name}: ${figures.least(other.webMm)} ${figures.unit} of metal to ${other.name} is too little for ${process}: at least ${wanted(leastWeb)}.`,
      ),
  );
  return [...small, ...near];
}

/** Metal between two edges that do not cross, mm. */
function webMm(hole: Loop, other: Loop): number {
  if (hole.kind === 'circle') return loopGapMm(hole.centre, other) - hole.radiusMm;
  if (other.kind === 'circle') return webMm(other, hole);
  return Math.min(...tessellated(hole).map((at) => loopGapMm(at, other)));
}

/** What the width of the cut does to the sizes, and how far to move the tool. */
export function kerfNote({ process, kerfMm }: Cutting, figures: Figures): string {
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
