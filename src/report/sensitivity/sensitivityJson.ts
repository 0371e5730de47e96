import type { Slope } from '../../studies/sensitivity/rate.ts';
import type { Sensitivity } from '../../studies/sensitivity/sensitivity.ts';
import { jsonHead } from '../jsonHead.ts';
import { shownWheelAngleDeg } from '../pose.ts';
import { rounded } from '../rounded.ts';
import { inputField, shownInput } from '../steering.ts';

const SENSITIVITY_FORMAT = 'daylight.sensitivity';
const SENSITIVITY_VERSION = 1;

const slopeObject = (slope: Slope | undefined) =>
  slope === undefined ? null : { perUnit: rounded(slope.perUnit), error: rounded(slope.error) };

/** A study as JSON text. The format is described in public/results-format.md. */
export function sensitivityJson({ setup, values, pairs, unknown }: Sensitivity, version: string): string {
  const { design, settings, solids } = setup;
  const { corner, hash } = design;
  const idsOf = (pair: number) => ({
    a: solids[setup.pairs[pair].a].id,
    b: solids[setup.pairs[pair].b].id,
  });
  const object = {
    ...jsonHead(SENSITIVITY_FORMAT, SENSITIVITY_VERSION, version, hash, corner),
    settings,
    values: values.map(({ field, input, problems }) => ({
      name: field.name,
      quantity: field.kind,
      value: rounded(Number(input.value)),
      plusMinusMm: input.plusMinus?.from === 'typed' ? rounded(input.plusMinus.amount) : null,
      assumed: input.assumed,
      problems: problems.map(({ path, found, message }) => ({ path, found, message })),
    })),
    pairs: pairs.map(({ finding, worst, effects }) => ({
      ...idsOf(finding.pair),
      state: finding.state,
      worst: {
        travelMm: rounded(worst.travelMm),
        ...inputField(corner, rounded(shownInput(corner, worst.steer))),
        roadWheelAngleDeg: rounded(shownWheelAngleDeg(corner, worst.roadWheelAngleDeg)),
        clearanceMm: rounded(worst.clearanceMm),
        errorMm: rounded(worst.errorMm),
        marginMm: rounded(worst.marginMm),
      },
      effects: effects.map(({ value, rate }) => ({
        value: value.field.name,
        both: slopeObject(rate.both),
        below: slopeObject(rate.below),
        above: slopeObject(rate.above),
      })),
    })),
    unknown: unknown.map(({ pair }) => idsOf(pair)),
  };
  return `${JSON.stringify(object, null, 2)}\n`;
}
