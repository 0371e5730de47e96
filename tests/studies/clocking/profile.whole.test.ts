import { describe, expect, it } from 'vitest';
import { translation } from '../../../src/math/rigid.ts';
import { profileOf } from '../../../src/studies/clocking/profile.ts';
import { arcsOf, FIRST_DEG, stateAt } from '../../../src/studies/clocking/spans.ts';
import { box, merged, moved } from '../../oracles/shapes.ts';
import { barrel, barrelError, pairOf, peg, pegError } from './turned.ts';

/** Tolerance of the ends of arcs, degrees. */
const END_DEG = 0.1;
const degOf = (rad: number) => (rad * 180) / Math.PI;

describe('a box that turns in a round barrel', () => {
  const innerMm = 200;
  // The box's corners are at hypot(40, 190) in the plane of the wheel.
  const block = moved(box(80, 30, 40), translation([0, 0, 170]));
  const cornerMm = Math.hypot(40, 190);
  const errorMm = barrelError(220);

  it.each([
    ['clears at every angle', innerMm - cornerMm - 3 * errorMm - 0.1, 'clears'],
    ['clears at none', innerMm - cornerMm + 3 * errorMm + 0.1, 'fails'],
    ['is not settled within the error', innerMm - cornerMm, 'unsettled'],
  ])('%s', (_, requiredMm, state) => {
    const pair = pairOf(block, barrel(innerMm, 220, 60), { requiredMm, chordErrorMm: errorMm });
    const { marginMm, errorMm: bound, spans } = profileOf(pair);
    expect(spans).toEqual([{ fromDeg: FIRST_DEG, toDeg: FIRST_DEG + 360, state }]);
    marginMm.forEach((margin, k) => {
      expect(Math.abs(margin + requiredMm - (innerMm - cornerMm))).toBeLessThanOrEqual(bound[k]);
    });
  });
});

describe('bolts on one circle', () => {
  const [d, circle] = [13, 118];

  it.each([
    ['meet', 0],
    ['are closer than required', 3],
  ])('%s at 2 asin((d + gap) / D) to either side', (_, requiredMm) => {
    const pair = pairOf(peg(d, circle / 2, 20), peg(d, circle / 2, -31), {
      chordErrorMm: pegError(d),
      requiredMm,
    });
    // At turn 0 they are 51 degrees apart, so they coincide at a turn of -51.
    const halfDeg = degOf(2 * Math.asin((d + requiredMm) / circle));
    const { spans } = profileOf(pair);
    const [clears, ...others] = arcsOf(spans, 'clears');
    expect(others).toEqual([]);
    expect(clears.fromDeg).toBeGreaterThanOrEqual(-51 + halfDeg);
    expect(clears.fromDeg).toBeLessThanOrEqual(-51 + halfDeg + END_DEG);
    expect(clears.toDeg - 360).toBeLessThanOrEqual(-51 - halfDeg);
    expect(clears.toDeg - 360).toBeGreaterThanOrEqual(-51 - halfDeg - END_DEG);
    for (const { fromDeg, toDeg } of arcsOf(spans, 'fails')) {
      expect(fromDeg).toBeGreaterThanOrEqual(-51 - halfDeg);
      expect(toDeg).toBeLessThanOrEqual(-51 + halfDeg);
    }
    // If one bolt is completely inside the other, their surfaces meet without a depth, so the required clearance must
    // be positive.
    if (requiredMm === 0) return;
    const fails = arcsOf(spans, 'fails');
    expect(fails[0].fromDeg).toBeLessThanOrEqual(-51 - halfDeg + END_DEG);
    expect(fails.length).toBe(1);
    expect(fails[0].toDeg).toBeGreaterThanOrEqual(-51 + halfDeg - END_DEG);
  });
});

describe('a peg that passes a wall', () => {
  const [d, radiusMm, wallMm] = [10, 90, 60];
  // The wall's face is 60 mm behind the axis (x = -60).
  const wall = moved(box(20, 40, 400), translation([-wallMm - 10, 0, 0]));

  it('has the computed interval in front of it', () => {
    const pair = pairOf(peg(d, radiusMm, 0), wall, { chordErrorMm: pegError(d) });
    const fromDeg = degOf(Math.asin((wallMm - d / 2) / radiusMm));
    const [clears, ...others] = arcsOf(profileOf(pair).spans, 'clears').toSorted((a, b) => a.toDeg - b.toDeg);
    // The peg would have to be 85 mm behind the axis to be beyond the wall's back.
    const backDeg = degOf(Math.asin((wallMm + 20 + d / 2) / radiusMm));
    expect(others.length).toBe(1);
    expect(clears.fromDeg).toBeGreaterThanOrEqual(backDeg);
    expect(clears.fromDeg).toBeLessThanOrEqual(backDeg + END_DEG);
    expect(clears.toDeg).toBeLessThanOrEqual(180 - backDeg);
    expect(clears.toDeg).toBeGreaterThanOrEqual(180 - backDeg - END_DEG);
    const [front] = others;
    expect(front.fromDeg).toBeGreaterThanOrEqual(180 - fromDeg);
    expect(front.fromDeg).toBeLessThanOrEqual(180 - fromDeg + END_DEG);
    expect(front.toDeg - 360).toBeLessThanOrEqual(fromDeg);
    expect(front.toDeg - 360).toBeGreaterThanOrEqual(fromDeg - END_DEG);
  });
});

describe('a range narrower than a degree', () => {
  const [d, radiusMm] = [12, 80];
  const apartDeg = degOf(2 * Math.asin(d / (2 * radiusMm)));
  const centreDeg = 17.48;

  it('is found if it is a window of 0.3 degree between two posts', () => {
    const posts = merged(
      peg(d, radiusMm, centreDeg - apartDeg - 0.15),
      peg(d, radiusMm, centreDeg + apartDeg + 0.15),
    );
    const pair = pairOf(peg(d, radiusMm, 0), posts, { chordErrorMm: pegError(d) });
    const { spans } = profileOf(pair);
    for (const deg of [17, 18]) expect(stateAt(spans, deg)).not.toBe('clears');
    const windows = arcsOf(spans, 'clears').filter(({ fromDeg, toDeg }) => toDeg - fromDeg < 5);
    expect(windows.length).toBe(1);
    expect(windows[0].fromDeg).toBeGreaterThanOrEqual(centreDeg - 0.15);
    expect(windows[0].fromDeg).toBeLessThanOrEqual(centreDeg - 0.15 + END_DEG);
    expect(windows[0].toDeg).toBeLessThanOrEqual(centreDeg + 0.15);
    expect(windows[0].toDeg).toBeGreaterThanOrEqual(centreDeg + 0.15 - END_DEG);
  });

  it('is found if it is an obstacle of 0.3 degree', () => {
    // A wall across the peg's path, at a distance at which the peg meets it for 0.15 degree to either side.
    const reachMm = radiusMm * Math.cos((0.15 * Math.PI) / 180) + d / 2;
    const wall = moved(box(4, 30, 20), translation([0, 0, reachMm + 10]));
    const pair = pairOf(peg(d, radiusMm, centreDeg), wall, { chordErrorMm: 1e-6 });
    const { marginMm, spans } = profileOf(pair);
    expect(Math.min(...marginMm)).toBeGreaterThan(0);
    expect(spans.some(({ state }) => state !== 'clears')).toBe(true);
    for (const { fromDeg, toDeg } of spans.filter(({ state }) => state !== 'clears')) {
      expect(fromDeg).toBeGreaterThanOrEqual(-centreDeg - 3);
      expect(toDeg).toBeLessThanOrEqual(-centreDeg + 3);
    }
  });
});

describe('a pair with a rotational period', () => {
  it('has the same profile with and without the period given', () => {
    // Six bolts on a circle about the axis, next to a wall.
    const bolts = merged(...Array.from({ length: 6 }, (_, k) => peg(10, 50, 60 * k + 7, 5)));
    const wall = moved(box(20, 40, 60), translation([-61, 0, 0]));
    const pair = pairOf(bolts, wall, { requiredMm: 1 });
    const repeated = profileOf({
      periodDeg: 60,
      at: (deg) => pair.at(deg),
      bounds: (deg, half) => pair.bounds(deg, half),
    });
    const whole = profileOf(pair);
    expect(repeated.spans.length).toBe(whole.spans.length);
    repeated.spans.forEach(({ fromDeg, toDeg, state }, k) => {
      expect(state).toBe(whole.spans[k].state);
      expect(Math.abs(fromDeg - whole.spans[k].fromDeg)).toBeLessThan(0.1);
      expect(Math.abs(toDeg - whole.spans[k].toDeg)).toBeLessThan(0.1);
    });
    whole.marginMm.forEach((margin, k) => {
      expect(Math.abs(repeated.marginMm[k] - margin)).toBeLessThanOrEqual(
        repeated.errorMm[k] + whole.errorMm[k],
      );
    });
    expect(arcsOf(whole.spans, 'clears').length).toBe(6);
  });
});
