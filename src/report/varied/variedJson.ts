import type { Design } from '../../design/design.ts';
import type { Corner } from '../../design/schema.ts';
import { shownPoint } from '../../design/side.ts';
import type { PairTrial } from '../../studies/vary/pairTrial.ts';
import type { VariedCell } from '../../studies/vary/variedCell.ts';
import type { Study } from '../../studies/vary/vary.ts';
import type { SweepSettings } from '../../sweep/result.ts';
import { jsonHead } from '../jsonHead.ts';
import { limitObject } from '../limitJson.ts';
import { shownWheelAngleDeg } from '../pose.ts';
import { rounded } from '../rounded.ts';
import { inputField, shownInput } from '../steering.ts';

const VARIED_FORMAT = 'daylight.varied';
const VARIED_VERSION = 2;

/** A study as JSON text, for the side of the corner. The format is described in public/results-format.md. */
export function variedJson(design: Design, settings: SweepSettings, study: Study, version: string): string {
  const { corner, hash } = design;
  const cellObject = ({ values, tried }: VariedCell) => ({
    values: values.map(({ label, amount }) => ({
      label,
      amount: amount === undefined ? null : rounded(amount),
    })),
    verdict: tried.verdict,
    problems: tried.problems.map(({ path, found, message }) => ({ path, found, message })),
    locksOut: tried.locksOut,
    pairs: tried.pairs.map((pair) => pairObject(tried.corner ?? corner, pair)),
    limits: tried.limits.map((limit) => limitObject(tried.corner ?? corner, limit)),
  });
  const object = {
    ...jsonHead(VARIED_FORMAT, VARIED_VERSION, version, hash, corner),
    settings,
    varied: study.axes.map(({ title, values }) => ({ title, values: values.length })),
    hubHeld: study.hubHeld,
    pairCount: study.pairCount,
    concernedCount: study.concernedCount,
    limitCount: study.limitCount,
    concernedLimitCount: study.concernedLimitCount,
    unknownLimits: study.unknownLimits.map((limit) => limitObject(corner, limit)),
    cells: study.cells.map(cellObject),
    fits:
      study.intervals?.map(({ first, last, below, above }) => ({
        first: { label: first.label, amount: rounded(first.amount ?? Number.NaN) },
        last: { label: last.label, amount: rounded(last.amount ?? Number.NaN) },
        failsBelow: below === undefined ? null : cellObject(below),
        failsAbove: above === undefined ? null : cellObject(above),
      })) ?? null,
  };
  return `${JSON.stringify(object, null, 2)}\n`;
}

/** The result of a pair as JSON, for the side of the corner. */
export function pairObject(corner: Corner, pair: PairTrial) {
  const { a, b, labelA, labelB, moves, state, targetMm, targetOrigin, allowanceMm, worst, leastMarginMm } =
    pair;
  const point = (p: readonly [number, number, number]) => shownPoint(corner.side, p).map(rounded);
  return {
    a,
    b,
    labels: [labelA, labelB],
    moves,
    state,
    targetMm: rounded(targetMm),
    targetOrigin,
    allowanceMm: rounded(allowanceMm),
    leastMarginMm: state === 'touches' || !Number.isFinite(leastMarginMm) ? null : rounded(leastMarginMm),
    worst:
      worst === undefined
        ? null
        : {
            clearanceMm: rounded(worst.clearanceMm),
            errorMm: rounded(worst.errorMm),
            marginMm: rounded(worst.marginMm),
            travelMm: rounded(worst.travelMm),
            ...inputField(corner, rounded(shownInput(corner, worst.steer))),
            roadWheelAngleDeg: rounded(shownWheelAngleDeg(corner, worst.roadWheelAngleDeg)),
            pointA: point(worst.pointA),
            pointB: point(worst.pointB),
          },
  };
}
