import type { Corner } from '../../design/schema.ts';
import type { TightSpot } from '../../findings/findings.ts';
import type { Slope } from '../../studies/sensitivity/rate.ts';
import type { Effect, Sensitivity } from '../../studies/sensitivity/sensitivity.ts';
import type { Setup } from '../../sweep/setUp.ts';
import type { Problem } from '../../units/problem.ts';
import { jsonHead } from '../jsonHead.ts';
import { shownWheelAngleDeg } from '../pose.ts';
import { rounded } from '../rounded.ts';
import { inputField, shownInput } from '../steering.ts';

const SENSITIVITY_FORMAT = 'daylight.sensitivity';
const SENSITIVITY_VERSION = 1;

export const slopeObject = (slope: Slope | undefined) =>
  slope === undefined ? null : { perUnit: rounded(slope.perUnit), error: rounded(slope.error) };

/** The effect of a value on a pair. */
export const effectObject = ({ value, rate }: Effect) => ({
  value: value.field.name,
  both: slopeObject(rate.both),
  below: slopeObject(rate.below),
  above: slopeObject(rate.above),
});

/** The worst pose of a pair. */
export const worstObject = (corner: Corner, worst: TightSpot) => ({
  travelMm: rounded(worst.travelMm),
  ...inputField(corner, rounded(shownInput(corner, worst.steer))),
  roadWheelAngleDeg: rounded(shownWheelAngleDeg(corner, worst.roadWheelAngleDeg)),
  clearanceMm: rounded(worst.clearanceMm),
  errorMm: rounded(worst.errorMm),
  marginMm: rounded(worst.marginMm),
});

/** Why a corner cannot be built. */
export const problemObjects = (problems: readonly Problem[]) =>
  problems.map(({ path, found, message }) => ({ path, found, message }));

/** Ids of the two parts of a pair. */
export const idsOf = ({ pairs, solids }: Setup, pair: number) => ({
  a: solids[pairs[pair].a].id,
  b: solids[pairs[pair].b].id,
});

/** A study as JSON text. The format is described in public/results-format.md. */
export function sensitivityJson({ setup, values, pairs, unknown }: Sensitivity, version: string): string {
  const { design, settings } = setup;
  const { corner, hash } = design;
  const object = {
    ...jsonHead(SENSITIVITY_FORMAT, SENSITIVITY_VERSION, version, hash, corner),
    settings,
    values: values.map(({ field, input, problems }) => ({
      name: field.name,
      quantity: field.kind,
      value: rounded(Number(input.value)),
      plusMinusMm: input.plusMinus?.from === 'typed' ? rounded(input.plusMinus.amount) : null,
      assumed: input.assumed,
      problems: problemObjects(problems),
    })),
    pairs: pairs.map(({ finding, worst, effects }) => ({
      ...idsOf(setup, finding.pair),
      state: finding.state,
      worst: worstObject(corner, worst),
      effects: effects.map(effectObject),
    })),
    unknown: unknown.map(({ pair }) => idsOf(setup, pair)),
  };
  return `${JSON.stringify(object, null, 2)}\n`;
}
