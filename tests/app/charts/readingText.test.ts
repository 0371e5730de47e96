import { describe, expect, it } from 'vitest';
import { readingText } from '../../../src/app/charts/readingText.ts';
import { gapText, gapTextWithUnit, signedMargin } from '../../../src/app/kit/words.ts';
import type { MeasuredPair } from '../../../src/app/state/measuredPair.ts';
import { clearanceText, differenceText } from '../../../src/app/tools/hold/clearanceText.ts';
import { bandPath } from '../../../src/report/curves/series.ts';
import { figuresIn } from '../../../src/report/figures.ts';

const figures = figuresIn('mm');
const OPEN = Number.POSITIVE_INFINITY;

const measured = (clearanceMm: number, errorMm: number): MeasuredPair => ({
  kind: clearanceMm < 0 ? 'overlapping' : 'separated',
  state: clearanceMm < 0 ? 'touches' : 'clear',
  clearanceMm,
  errorMm,
  marginMm: clearanceMm - 5,
  pointA: [0, 0, 0],
  pointB: [0, 0, 0],
});

describe('a depth without an upper bound', () => {
  const open = measured(-19.2749, OPEN);

  it('is shown on a chart as a lower bound', () => {
    expect(readingText(open, { zones: [] }, 60, figures)).toBe('at least 19.27 mm deep');
    expect(readingText(measured(12.7, 0.15), { zones: [] }, 60, figures)).toBe('12.70 ± 0.15 mm');
    expect(readingText(undefined, { zones: [] }, 60, figures)).toBe('?');
  });
  it('has no band below it', () => {
    const series = { pair: 0, clearanceMm: [-19, -18], errorMm: [0.1, OPEN] };
    expect(bandPath(series, [-20], Number, Number)).toBe('');
  });
  it('has no difference to another pose', () => {
    expect(clearanceText(open, figures)).toBe('at least 19.27 deep');
    expect(differenceText(open, measured(3, 0.1), figures)).toBeUndefined();
    expect(differenceText(measured(4, 0.1), measured(3, 0.1), figures)).toBe('+1.00 ± 0.20');
  });
  it('is marked as a bound in the gap and margin of the list', () => {
    expect(gapText(-19.2749, OPEN, figures)).toBe('at least 19.27 deep');
    expect(gapTextWithUnit(-19.2749, OPEN, figures)).toBe('at least 19.27 mm deep');
    expect(gapTextWithUnit(-19.2749, 0.3, figures)).toBe('−19.28 mm');
    expect(signedMargin(-24.2749, OPEN, figures)).toBe('at most −24.27');
    expect(signedMargin(2, 0.1, figures)).toBe('+2.00');
  });
});
