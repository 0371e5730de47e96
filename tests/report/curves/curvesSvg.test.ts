import { expect, it } from 'vitest';
import { curvesSvg } from '../../../src/report/curves/curvesSvg.ts';
import { figuresIn } from '../../../src/report/figures.ts';
import { spotsOf } from '../../../src/report/pictures.ts';
import { reportInput } from '../fixture.ts';

const numbers = (text: string): number[] => (text.match(/-?[\d.]+/g) ?? []).map(Number);

it('draws clearances over travel and over steer to one scale, with contact, target and the worst pose', () => {
  // Linear in both: at full droop and full lock outboard it is 12 - 10 - 8 = -6; the target is 5.
  const input = reportInput({
    travelSteps: 5,
    steerSteps: 5,
    measure: (pair, travelMm, steer) =>
      pair === 0 ? { mm: 12 + 0.2 * travelMm - 8 * steer, errorMm: 0.1 } : { mm: 25, errorMm: 0.1 },
  });
  const [{ pair, worst }] = spotsOf(input);
  const svg = curvesSvg(input, pair, worst, figuresIn('mm'));
  const level = (attributes: string) =>
    numbers(new RegExp(`<path d="M([^"]*)" stroke="${attributes}`).exec(svg)?.[1] ?? '')[1];
  const [contact, target] = [level('#c2410c"'), level('#1d2327" stroke-width="1" stroke-dasharray')];
  const pxPerMm = (contact - target) / 5;
  expect(pxPerMm).toBeGreaterThan(0);
  const mm = (y: number) => (contact - y) / pxPerMm;
  /** Heights of the points of each curve, from left to right. */
  const [overTravel, overSteer] = [...svg.matchAll(/<path d="([^"]*)" fill="none" stroke="#2b3f9e"/g)].map(
    ([, d]) =>
      [...d.matchAll(/[ML]([\d.]+) ([\d.]+)/g)]
        .map(([, x, y]) => [Number(x), Number(y)])
        .toSorted(([one], [other]) => one - other)
        .map(([, y]) => y),
  );
  // Over travel at full lock outboard, from droop to bump; the highest values are cut off at the top of the plot.
  expect(overTravel).toHaveLength(5);
  expect(mm(overTravel[0])).toBeCloseTo(-6, 0);
  expect(mm(overTravel[2])).toBeCloseTo(4, 0);
  // Over steer at full droop, from the left lock to the right one: outboard is to the left for a left corner.
  expect(overSteer).toHaveLength(5);
  expect(mm(overSteer[0])).toBeCloseTo(-6, 0);
  expect(mm(overSteer[4])).toBeCloseTo(10, 0);
  // The curve over steer is 11 mm from the target at the left end and 5 mm at the right one: the label is at the left end.
  const placesOf = (text: string) =>
    [...svg.matchAll(new RegExp(`<text x="([\\d.]+)"[^>]*>${text}<`, 'g'))].map(([, x]) => Number(x));
  expect(placesOf('target')[1]).toBe(placesOf('left lock')[0]);
  const circles = [...svg.matchAll(/<circle cx="([\d.]+)" cy="([\d.]+)"/g)].map(([, x, y]) => [
    Number(x),
    Number(y),
  ]);
  expect(circles.map(([, y]) => Math.round(mm(y)))).toEqual([-6, -6]);
});
