import type { MeasuringError } from '../../studies/measuringError/measuringError.ts';
import type { PairError } from '../../studies/measuringError/pairError.ts';
import type { StudiedValue } from '../../studies/sensitivity/studiedInputs.ts';
import type { Setup } from '../../sweep/setUp.ts';
import { jsonHead } from '../jsonHead.ts';
import { rounded } from '../rounded.ts';
import { effectObject, idsOf, problemObjects, worstObject } from '../sensitivity/sensitivityJson.ts';

const MEASURING_ERROR_FORMAT = 'daylight.measuringError';
const MEASURING_ERROR_VERSION = 1;

const roundedOrNull = (value: number | undefined) => (value === undefined ? null : rounded(value));

const valueObject = ({ field, input, problems }: StudiedValue) => ({
  name: field.name,
  quantity: field.kind,
  value: rounded(Number(input.value)),
  plusMinus: roundedOrNull(input.plusMinus?.amount),
  plusMinusFrom: input.plusMinus?.from ?? null,
  assumed: input.assumed,
  problems: problemObjects(problems),
});

function verifiedObject(setup: Setup, { verified, verifiedLossMm }: PairError) {
  if (verified === undefined) return null;
  if (verified.kind === 'notBuilt')
    return { kind: verified.kind, problems: problemObjects(verified.problems) };
  if (verified.kind === 'unknown') return verified;
  return {
    kind: verified.kind,
    state: verified.state,
    lossMm: roundedOrNull(verifiedLossMm),
    worst: worstObject(setup.design.corner, verified.worst),
  };
}

const pairObject = (setup: Setup, pair: PairError) => ({
  ...idsOf(setup, pair.finding.pair),
  state: pair.finding.state,
  withinMeasuringError: pair.isWithin ?? null,
  worst: worstObject(setup.design.corner, pair.worst),
  leastMarginMm: rounded(pair.leastMarginMm),
  worstCaseMm: roundedOrNull(pair.worstCaseMm),
  rootSumSquareMm: rounded(pair.rssMm),
  linear: { worstMm: rounded(pair.linear.worstMm), slopeErrorMm: rounded(pair.linear.slopeErrorMm) },
  verified: verifiedObject(setup, pair),
  terms: pair.terms.map(({ value, end, lossMm, slopeErrorMm, isMeasured }) => ({
    value: value.field.name,
    end,
    lossMm: rounded(lossMm),
    slopeErrorMm: rounded(slopeErrorMm),
    measured: isMeasured,
  })),
  assumed: pair.assumed.map(effectObject),
  exactCount: pair.exactCount,
});

/** A study as JSON text. The format is described in public/results-format.md. */
export function measuringErrorJson({ sensitivity, pairs, again }: MeasuringError, version: string): string {
  const { setup, values, unknown } = sensitivity;
  const { corner, hash } = setup.design;
  const object = {
    ...jsonHead(MEASURING_ERROR_FORMAT, MEASURING_ERROR_VERSION, version, hash, corner),
    settings: setup.settings,
    measuredTo: {
      lengthMm: roundedOrNull(corner.measuredTo?.length),
      angleDeg: roundedOrNull(corner.measuredTo?.angle),
    },
    values: values.map(valueObject),
    pairs: pairs.map((pair) => pairObject(setup, pair)),
    measureAgain: {
      totalMm: rounded(again.totalMm),
      values: again.values.map(({ value, doubtMm, pairs: count }) => ({
        value: value.field.name,
        doubtMm: rounded(doubtMm),
        pairs: count,
      })),
    },
    unknown: unknown.map(({ pair }) => idsOf(setup, pair)),
  };
  return `${JSON.stringify(object, null, 2)}\n`;
}
