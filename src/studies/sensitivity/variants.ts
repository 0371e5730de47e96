import type { Design } from '../../design/design.ts';
import { parseDesign } from '../../design/parse.ts';
import { pairId } from '../../sweep/pair.ts';
import type { SweepSettings } from '../../sweep/result.ts';
import { type Built, buildCorner, SetupMemory, withBodies } from '../../sweep/setUp.ts';
import { DesignProblems, type Problem } from '../../units/problem.ts';
import { motionKey, pairKey } from '../vary/pairKey.ts';
import { typedAmount } from '../vary/typedAmount.ts';
import { withAmount, withoutMeasuredTo } from '../vary/variedField.ts';
import { changedReading, type PosedPair } from './posedPair.ts';
import { needsSmallerStep, type Rate, type Reading, rateOf } from './rate.ts';
import type { StudiedInput } from './studiedInputs.ts';

/** Step of a length, mm, and of an angle, degrees. */
export const STEPS = { length: 1, angle: 0.5 } as const;

/** States of a part that are kept: below and above its value, by a step and by a quarter of it, and the file's. */
const STATES = 6;

/** Readings of the pairs that a change affects, or the reasons why the changed corner cannot be built. */
type Changed<P> = { readings: ReadonlyMap<P, Reading | undefined> } | { problems: readonly Problem[] };

/** Rates of the pairs that change with a value, and the reasons why the corner cannot be built beside it. */
export interface ValueRates<P extends PosedPair> {
  problems: readonly Problem[];
  rates: ReadonlyMap<P, Rate>;
}

/** Builds a corner with changed values, and measures the pairs that change. */
export class Variants {
  private readonly design: Design;
  private readonly settings: SweepSettings;
  /**
   * Only for changed corners: the depth that is found in an overlap depends on how its trees were built, so that the rates of
   * a value would depend on which of them were built before.
   */
  private readonly memory = new SetupMemory(STATES);

  constructor(design: Design, settings: SweepSettings) {
    this.design = design;
    this.settings = settings;
  }

  /** The rates of the pairs that change with a value. */
  async study<P extends PosedPair>(studied: StudiedInput, near: readonly P[]): Promise<ValueRates<P>> {
    const step = STEPS[studied.field.kind];
    const [below, above] = [
      await this.changed(studied, -step, near),
      await this.changed(studied, step, near),
    ];
    const rates = ratesOf(below, above, step);
    const bent = [...rates].flatMap(([pair, rate]) => (needsSmallerStep(rate) ? [pair] : []));
    if (bent.length > 0) {
      const smallStep = step / 4;
      const [low, high] = [
        await this.changed(studied, -smallStep, bent),
        await this.changed(studied, smallStep, bent),
      ];
      const smaller = ratesOf(low, high, smallStep);
      for (const [pair, rate] of ratesOf(below, above, step, smaller)) rates.set(pair, rate);
    }
    const problems = [below, above].flatMap((side) => ('problems' in side ? side.problems : []));
    return { problems, rates };
  }

  /** Builds the corner with a value changed, and measures the given pairs that differ from the file's. */
  private async changed<P extends PosedPair>(
    studied: StudiedInput,
    by: number,
    near: readonly P[],
  ): Promise<Changed<P>> {
    const { design, settings, memory } = this;
    const parts = new Set(near.flatMap((pair) => pair.parts));
    const changed = withAmount(
      withoutMeasuredTo(design.source),
      studied.field,
      typedAmount(design, studied.field, studied.input) + by,
    );
    const read = parseDesign(JSON.stringify(changed), design.assets);
    if (read.kind === 'bad') return { problems: read.problems };
    let built: Built;
    try {
      built = await buildCorner(read.design, settings, memory, {
        isWanted: ({ id }) => parts.has(id),
        measuredOnly: true,
      });
    } catch (error) {
      if (error instanceof DesignProblems) return { problems: error.problems };
      throw error;
    }
    const motion = motionKey(built);
    const indexOf = new Map(built.pairs.map((pair, p) => [pairId(built.solids, pair), p]));
    const affected = near.flatMap((pair) => {
      const p = indexOf.get(pair.id);
      return p !== undefined && pairKey(built, p, motion) === pair.key ? [] : [{ pair, p }];
    });
    const measured = affected.flatMap(({ p }) => (p === undefined ? [] : [built.pairs[p]]));
    const setup = withBodies({ ...built, pairs: measured }, memory, true);
    let next = 0;
    const readings = new Map<P, Reading | undefined>(
      // A pair that no longer exists has no reading.
      affected.map(({ pair, p }) => [
        pair,
        p === undefined ? undefined : changedReading(design.corner, setup, next++, pair),
      ]),
    );
    return { readings };
  }
}

/** The rates of all pairs that a change to either side affects. */
function ratesOf<P extends PosedPair>(
  below: Changed<P>,
  above: Changed<P>,
  step: number,
  smaller?: ReadonlyMap<P, Rate>,
): Map<P, Rate> {
  const changed = [below, above].flatMap((side) => ('readings' in side ? [...side.readings.keys()] : []));
  const readingOf = (side: Changed<P>, pair: P) =>
    'problems' in side ? undefined : side.readings.has(pair) ? side.readings.get(pair) : pair.reading;
  return new Map(
    [...new Set(changed)].map((pair) => [
      pair,
      rateOf(pair.reading, readingOf(below, pair), readingOf(above, pair), step, smaller?.get(pair)),
    ]),
  );
}
