import { describe, expect, it } from 'vitest';
import { translation } from '../../../src/math/rigid.ts';
import { profileOf } from '../../../src/studies/clocking/profile.ts';
import { arcsOf, FIRST_DEG, stateAt } from '../../../src/studies/clocking/spans.ts';
import { box, merged, moved } from '../../oracles/shapes.ts';
import { barrel, barrelError, pairOf, peg, pegError } from './turned.ts';

/** Ends of arcs are found to this, degrees. */
const END_DEG = 0.1;
const degOf = (rad: number) => (rad * 180) / Math.PI;

describe('a box that turns in a round barrel', () => {
  const innerMm = 200;
  // Corners in the plane of the wheel at hypot(40, 190).
  const block = moved(box(80, 30, 40), translation([0, 0, 170]));
  const cornerMm = Math.hypot(40, 190);
  const errorMm = barrelError(220);

  it.each([
    ['clears at every angle', innerMm - cornerMm - 3 * errorMm - 0.1, 'clears'],
    ['clears at none', innerMm - cornerMm + 3 * errorMm + 0.1, 'fails'],
    ['is not settled within the error', innerMm - cornerMm, 'unsettled'],
  ])('%s', (_, wantedMm, state) => {
    const pair = pairOf(block, barrel(innerMm, 220, 60), { wantedMm, chordErrorMm: errorMm });
    const { marginMm, errorMm: bound, spans } = profileOf(pair);
    expect(spans).toEqual([{ fromDeg: FIRST_DEG, toDeg: FIRST_DEG + 360, state }]);
    marginMm.forEach((margin, k) => {
      expect(Math.abs(margin + wantedMm - (innerMm - cornerMm))).toBeLessThanOrEqual(bound[k]);
    });
  });
});

describe('bolts on one circle', () => {
  const [d, circle] = [13, 118];

  it.each([
    ['meet', 0],
    ['come nearer than is wanted', 3],
  ])('%s at 2 asin((d + gap) / D) to either side', (_, wantedMm) => {
    const pair = pairOf(peg(d, circle / 2, 20), peg(d, circle / 2, -31), {
      chordErrorMm: pegError(d),
      wantedMm,
    });
    // As drawn they are 51 degrees apart: the one stands on the other at a turn of -51.
    const halfDeg = degOf(2 * Math.asin((d + wantedMm) / circle));
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
    // Where one bolt lies in the other whole, their surfaces meet without a depth: more is needed than contact.
    if (wantedMm === 0) return;
    const fails = arcsOf(spans, 'fails');
    expect(fails[0].fromDeg).toBeLessThanOrEqual(-51 - halfDeg + END_DEG);
    expect(fails.length).toBe(1);
    expect(fails[0].toDeg).toBeGreaterThanOrEqual(-51 + halfDeg - END_DEG);
  });
});

describe('a peg that passes a wall', () => {
  const [d, radiusMm, wallMm] = [10, 90, 60];
  // The wall's face stands 60 mm behind the axis (x = -60).
  const wall = moved(box(20, 40, 400), translation([-wallMm - 10, 0, 0]));

  it('has the computed interval in front of it', () => {
    const pair = pairOf(peg(d, radiusMm, 0), wall, { chordErrorMm: pegError(d) });
    const fromDeg = degOf(Math.asin((wallMm - d / 2) / radiusMm));
    const [clears, ...others] = arcsOf(profileOf(pair).spans, 'clears').toSorted((a, b) => a.toDeg - b.toDeg);
    // Beyond the wall's back the peg would have to be 85 mm behind the axis.
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

describe('what is narrower than a degree', () => {
  const [d, radiusMm] = [12, 80];
  const apartDeg = degOf(2 * Math.asin(d / (2 * radiusMm)));
  const centreDeg = 17.48;

  it('a window of 0.3 degree between two posts is found', () => {
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

  it('an obstacle of 0.3 degree is found', () => {
    // A wall across the peg's way, so far out that the peg dips into it for 0.15 degree to either side.
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

describe('a pair that is the same again after a part of a turn', () => {
  it('has the profile that it has without being told so', () => {
    // Six bolts on a circle about the axis beside a wall.
    const bolts = merged(...Array.from({ length: 6 }, (_, k) => peg(10, 50, 60 * k + 7, 5)));
    const wall = moved(box(20, 40, 60), translation([-61, 0, 0]));
    const pair = pairOf(bolts, wall, { wantedMm: 1 });
    const told = profileOf({
      periodDeg: 60,
      at: (deg) => pair.at(deg),
      bounds: (deg, half) => pair.bounds(deg, half),
    });
    const whole = profileOf(pair);
    expect(told.spans.length).toBe(whole.spans.length);
    told.spans.forEach(({ fromDeg, toDeg, state }, k) => {
      expect(state).toBe(whole.spans[k].state);
      expect(Math.abs(fromDeg - whole.spans[k].fromDeg)).toBeLessThan(0.1);
      expect(Math.abs(toDeg - whole.spans[k].toDeg)).toBeLessThan(0.1);
    });
    whole.marginMm.forEach((margin, k) => {
      expect(Math.abs(told.marginMm[k] - margin)).toBeLessThanOrEqual(told.errorMm[k] + whole.errorMm[k]);
    });
    expect(arcsOf(whole.spans, 'clears').length).toBe(6);
  });
});
