/**
 * Gaps measured on the mock-up beside those computed at the same poses, whether measuring error explains the difference, and
 * which values are most probably wrong if it does not. No value is ever changed.
 */
import type { Design, InputRecord } from '../../design/design.ts';
import { pathFrom } from '../../design/path.ts';
import type { MockupEntry } from '../../design/schema.ts';
import { layoutOf } from '../../layouts/layoutOf.ts';
import { lockOf } from '../../layouts/steering.ts';
import { alignmentAt } from '../../mechanism/alignment.ts';
import { solvePose } from '../../mechanism/solvePose.ts';
import type { Place } from '../../proof/proveBetween.ts';
import { withHeldHub } from '../../solids/heldHub.ts';
import { pairLabel } from '../../sweep/pair.ts';
import type { SweepSettings } from '../../sweep/result.ts';
import { type Built, buildCorner, type Setup, SetupMemory, withBodies } from '../../sweep/setUp.ts';
import { DesignProblems, type Problem } from '../../units/problem.ts';
import { measureRatesHere } from '../sensitivity/measureRates.ts';
import { type PosedPair, posedPair } from '../sensitivity/posedPair.ts';
import { type Rate, type Reading, rateOf, slopeSize } from '../sensitivity/rate.ts';
import { type StudiedInput, studiedInputs } from '../sensitivity/studiedInputs.ts';
import { STEPS } from '../sensitivity/variants.ts';
import { linearUpdate } from './linearUpdate.ts';

/** Effect of a value on a gap. */
export interface GapEffect {
  value: StudiedInput;
  rate: Rate;
}

/** A gap of the mock-up beside the computed one. */
export interface ComparedGap {
  /** Index in the file's `mockup`. */
  index: number;
  entry: MockupEntry;
  /** Ids of the two solids, of those that the entry names the nearest ones, and the label of their pair. */
  between: readonly [string, string];
  label: string;
  /** False if the two never move relative to each other. */
  moves: boolean;
  pose: Place & { roadWheelAngleDeg: number };
  /** As typed, with its ±, which is 0 if none was typed. */
  measured: Reading;
  /** Undefined if the clearance or the size of a depth is not known. */
  predicted: Reading | undefined;
  /** Measured minus predicted, mm; 0 for parts that touch as predicted. Undefined without a prediction. */
  differenceMm: number | undefined;
  /** Worst-case sum of the ± of all values, through their slopes at this pose, mm. */
  measuringErrorMm: number;
  /** Whether the ± of the gap, mesh error and measuring error together cover the difference. */
  isExplained: boolean | undefined;
  /** Values that change the gap, the largest slope first. */
  effects: readonly GapEffect[];
}

/** A value that is most probably wrong, by the least squares of `linearUpdate`. */
export interface SuspectValue {
  value: StudiedInput;
  /** Most probable change, mm or degrees. */
  change: number;
  /** What that change does to each gap, mm, by the gap's index in the file. */
  effectMm: ReadonlyMap<number, number>;
}

export interface MockupStudy {
  design: Design;
  /** In the file's order. */
  gaps: readonly ComparedGap[];
  /** The largest effect first. Empty if measuring error explains every gap. */
  suspects: readonly SuspectValue[];
}

export interface MockupOptions {
  settings: SweepSettings;
  /** Cancels the study, which then rejects with the signal's reason. */
  signal?: AbortSignal;
  /** Number of values done and of all values. */
  onProgress?: (done: number, total: number) => void;
}

/** Gaps are measured up to this, mm: no two parts of a corner are further apart. */
const LIMIT_MM = 5000;

/** A gap at its pose, with the effects found so far. */
interface StudiedGap extends PosedPair {
  index: number;
  pair: number;
  effects: GapEffect[];
}

/**
 * Compares each gap of the file's mock-up with the computed one. Throws DesignProblems if the corner cannot be built, an
 * entry names no pair that is measured, or the suspension does not reach its pose. Rejects with the signal's reason when
 * cancelled.
 */
export async function mockupOf(
  design: Design,
  { settings, signal, onProgress }: MockupOptions,
): Promise<MockupStudy> {
  const entries = design.corner.mockup ?? [];
  const built = await buildCorner(
    withHeldHub(design),
    { ...settings, limitMm: LIMIT_MM },
    new SetupMemory(),
    {
      measuredOnly: true,
    },
  );
  const places = entries.map((entry) => placeOf(built, entry));
  const named = entries.map((entry) => pairsNamed(built, entry));
  const problems = entries.flatMap((entry, index) =>
    problemsOf(built, entry, index, named[index], places[index]),
  );
  if (problems.length > 0) throw new DesignProblems(problems);
  const used = [...new Set(named.flat())];
  const setup = withBodies({ ...built, pairs: used.map((pair) => built.pairs[pair]) });
  const posed = entries.map((_, index): StudiedGap | undefined => {
    const gaps = named[index].map((pair): StudiedGap | undefined => {
      const p = used.indexOf(pair);
      const at = posedPair(setup, p, [places[index]], true);
      return at === undefined ? undefined : { ...at, index, pair: p, effects: [] };
    });
    // Of several pairs, one whose clearance is not known may be the nearest.
    return gaps.includes(undefined) ? undefined : nearest(gaps.filter((gap) => gap !== undefined));
  });
  const known = posed.filter((gap) => gap !== undefined);
  const inputs = studiedInputs(design);
  const rates = await measureRatesHere({
    design: setup.design,
    settings: setup.settings,
    inputs,
    pairs: known,
    signal,
    onDone: (done) => onProgress?.(done, inputs.length),
  });
  for (const [k, ofValue] of rates.entries())
    for (const [gap, rate] of ofValue.rates) gap.effects.push({ value: inputs[k], rate });
  for (const gap of known) gap.effects.push(...effectsOfPose(design, setup, gap));
  const gaps = entries.map((entry, index): ComparedGap => {
    const gap = posed[index];
    const place = places[index];
    const solved = solvePose(setup.mechanism, place.travelMm, place.steer);
    if (solved.kind !== 'solved') throw new Error('a pose that was reached is not reached again');
    const { roadWheelAngleDeg } = alignmentAt(setup.mechanism, solved, setup.tyre);
    const measured = { mm: entry.gap, errorMm: plusMinusOf(inputAt(design, index, 'gap')) ?? 0 };
    const pair = setup.pairs[gap?.pair ?? used.indexOf(named[index][0])];
    return {
      index,
      entry,
      between: [setup.solids[pair.a].id, setup.solids[pair.b].id],
      label: pairLabel(setup.solids, pair),
      moves: pair.moves,
      pose: { ...place, roadWheelAngleDeg },
      measured,
      ...compared(measured, gap),
    };
  });
  return { design, gaps, suspects: suspectsOf(gaps) };
}

const nearest = (gaps: readonly StudiedGap[]): StudiedGap =>
  gaps.reduce((least, gap) => (gap.reading.mm < least.reading.mm ? gap : least));

/** Pose of an entry. */
function placeOf({ design }: Built, { travel, rack, steerDeg }: MockupEntry): Place {
  const input = rack ?? steerDeg ?? 0;
  const lock = lockOf(design.corner.suspension, input > 0 ? 'outboard' : 'inboard');
  return { travelMm: travel, steer: input === 0 ? 0 : input / lock };
}

/** Indices of the pairs between the solids that an entry names, by their own ids or by those of their parts. */
function pairsNamed({ design, solids, pairs }: Built, { between: [one, other] }: MockupEntry): number[] {
  const isNamed = (solid: number, name: string) =>
    [solids[solid].id, design.corner.parts[solids[solid].partIndex].id].includes(name);
  return pairs.flatMap(({ a, b }, pair) =>
    (isNamed(a, one) && isNamed(b, other)) || (isNamed(a, other) && isNamed(b, one)) ? [pair] : [],
  );
}

function problemsOf(
  { mechanism }: Built,
  { between }: MockupEntry,
  index: number,
  named: readonly number[],
  { travelMm, steer }: Place,
): Problem[] {
  const problems: Problem[] = [];
  if (named.length === 0)
    problems.push({
      path: `mockup[${index}].between`,
      found: between.join(', '),
      message: 'is a pair that is not measured: it is fixed together, or excluded. Name two other parts',
    });
  const solved = solvePose(mechanism, travelMm, steer);
  if (solved.kind === 'unreachable')
    problems.push({
      path: `mockup[${index}].travel`,
      found: String(travelMm),
      message: `is a pose that the suspension does not reach: ${solved.reason} Correct the travel or the steering`,
    });
  return problems;
}

const inputAt = ({ inputs }: Design, index: number, field: string): InputRecord | undefined =>
  inputs.find(({ path }) => path === `mockup[${index}].${field}`);

/** The ± of a value, mm or degrees; undefined if it has none. */
const plusMinusOf = (input: InputRecord | undefined): number | undefined => input?.plusMinus?.amount;

/** Effects of the travel and the steering at which a gap was measured. */
function effectsOfPose(design: Design, setup: Setup, gap: StudiedGap): GapEffect[] {
  const { suspension } = design.corner;
  const { quantity } = layoutOf(suspension).steering;
  const [{ travelMm, steer }] = gap.poses;
  const readingAt = (place: Place) => posedPair(setup, gap.pair, [place], true)?.reading;
  const steered = (by: number): Place => {
    const input = steer * lockOf(suspension, steer > 0 ? 'outboard' : 'inboard') + by;
    const lock = lockOf(suspension, input > 0 ? 'outboard' : 'inboard');
    return { travelMm, steer: lock === 0 ? 0 : input / lock };
  };
  const moves = [
    { field: 'travel', kind: 'length' as const, at: (by: number) => ({ travelMm: travelMm + by, steer }) },
    { field: quantity === 'length' ? 'rack' : 'steerDeg', kind: quantity, at: steered },
  ];
  return moves.flatMap(({ field, kind, at }): GapEffect[] => {
    const input = inputAt(design, gap.index, field);
    const path = input === undefined ? undefined : pathFrom(input.path);
    if (input === undefined || path === undefined) return [];
    const step = STEPS[kind];
    const rate = rateOf(gap.reading, readingAt(at(-step)), readingAt(at(step)), step);
    return [{ value: { field: { name: input.path, path, kind }, input }, rate }];
  });
}

function compared(
  measured: Reading,
  gap: StudiedGap | undefined,
): Pick<ComparedGap, 'predicted' | 'differenceMm' | 'measuringErrorMm' | 'isExplained' | 'effects'> {
  if (gap === undefined)
    return {
      predicted: undefined,
      differenceMm: undefined,
      measuringErrorMm: 0,
      isExplained: undefined,
      effects: [],
    };
  const { reading: predicted } = gap;
  const effects = gap.effects.sort((one, other) => slopeSize(other.rate) - slopeSize(one.rate));
  const measuringErrorMm = effects.reduce(
    (sum, { value, rate }) => sum + (plusMinusOf(value.input) ?? 0) * slopeSize(rate),
    0,
  );
  // Parts of metal touch where meshes overlap.
  const touchesAsPredicted = measured.mm === 0 && predicted.mm <= 0;
  const differenceMm = touchesAsPredicted ? 0 : measured.mm - predicted.mm;
  const isExplained = Math.abs(differenceMm) <= measured.errorMm + predicted.errorMm + measuringErrorMm;
  return { predicted, differenceMm, measuringErrorMm, isExplained, effects };
}

/** Slope for the update: of both sides, or the mean of the two. */
function meanSlope({ both, below, above }: Rate): number {
  if (both !== undefined) return both.perUnit;
  const sides = [below, above].flatMap((slope) => (slope === undefined ? [] : [slope.perUnit]));
  return sides.length === 0 ? 0 : sides.reduce((sum, slope) => sum + slope, 0) / sides.length;
}

/** The values most probably wrong, from all gaps with a difference; none if measuring error explains every gap. */
function suspectsOf(gaps: readonly ComparedGap[]): SuspectValue[] {
  if (gaps.every(({ isExplained }) => isExplained !== false)) return [];
  const used = gaps.flatMap(({ index, measured, predicted, differenceMm, effects }) =>
    predicted === undefined || differenceMm === undefined
      ? []
      : [
          {
            index,
            difference: differenceMm,
            noise: Math.hypot(measured.errorMm, predicted.errorMm),
            slopes: new Map(effects.map(({ value, rate }) => [value.field.name, meanSlope(rate)])),
            effects,
          },
        ],
  );
  const values = new Map(
    used.flatMap(({ effects }) =>
      effects.flatMap(({ value }) =>
        plusMinusOf(value.input) === undefined ? [] : [[value.field.name, value] as const],
      ),
    ),
  );
  const names = [...values.keys()];
  const changes = linearUpdate({
    plusMinus: names.map((name) => plusMinusOf(values.get(name)?.input) ?? 0),
    slopes: used.map(({ slopes }) => names.map((name) => slopes.get(name) ?? 0)),
    differences: used.map(({ difference }) => difference),
    noise: used.map(({ noise }) => noise),
  });
  return [...values.values()]
    .map((value, k) => ({
      value,
      change: changes[k],
      effectMm: new Map(
        used.map(({ index, slopes }) => [index, changes[k] * (slopes.get(value.field.name) ?? 0)]),
      ),
    }))
    .filter(({ effectMm }) => largest(effectMm) > 0)
    .sort((one, other) => largest(other.effectMm) - largest(one.effectMm));
}

const largest = (effectMm: ReadonlyMap<number, number>): number =>
  Math.max(...[...effectMm.values()].map(Math.abs));
