import { describe, expect, it } from 'vitest';
import { prepareBody } from '../../../src/clearance/body.ts';
import { measure } from '../../../src/clearance/query.ts';
import {
  applyDirection,
  applyPoint,
  compose,
  identity,
  type Rigid,
  translation,
} from '../../../src/math/rigid.ts';
import type { Mesh, Zone } from '../../../src/solids/solid.ts';
import { ANGLES, profileOf } from '../../../src/studies/clocking/profile.ts';
import { arcsOf, type SpanState, stateAt } from '../../../src/studies/clocking/spans.ts';
import { between, cases, mulberry32 } from '../../oracles/random.ts';
import { box, merged, moved, rod } from '../../oracles/shapes.ts';
import { pairOf, placeAt, turnOf } from './turned.ts';

/** Boxes and bars at random positions beside the axis, some far out. */
function cluster(random: () => number, count: number): Mesh {
  return merged(
    ...Array.from({ length: count }, () => {
      const size = () => between(random, 6, 36);
      const mesh = random() < 0.5 ? box(size(), size(), size()) : rod(size() / 3, -size(), size(), 9);
      const [x, , z] = placeAt(between(random, 45, 110), between(random, -180, 180));
      const turn = turnOf(between(random, -180, 180));
      return moved(mesh, compose(translation([x, between(random, -10, 10), z]), turn));
    }),
  );
}

const slabAt = (random: () => number, deg: number): Zone => ({
  shape: 'slab',
  centre: placeAt(between(random, 60, 100), deg),
  axis: [0, 1, 0],
  halfThicknessMm: between(random, 12, 30),
  radiusMm: between(random, 12, 40),
});

const movedZone = (zone: Zone, t: Rigid): Zone => ({
  ...zone,
  centre: applyPoint(t, zone.centre),
  ...(zone.shape === 'slab' ? { axis: applyDirection(t, zone.axis) } : {}),
});

const signOf = (state: SpanState) => ({ clears: 1, fails: -1, unsettled: 0 })[state];

describe('a random hub, compared with new measurements every quarter of a degree', () => {
  const all = [
    [1, 'none'],
    [5, 'both'],
    [2, 'riding'],
    [3, 'riding'],
    [4, 'fixed'],
  ] as const;
  it.each(all.slice(0, cases(2, all.length)))('has the same profile: seed %i, zones: %s', (seed, zones) => {
    const random = mulberry32(seed);
    const [turning, fixed] = [cluster(random, 2), cluster(random, 3)];
    const requiredMm = between(random, 0, 6);
    const turningZones =
      zones === 'riding' || zones === 'both' ? [slabAt(random, 0), slabAt(random, 90)] : [];
    const fixedZones = zones === 'fixed' || zones === 'both' ? [slabAt(random, 40)] : [];
    const pair = pairOf(turning, fixed, { turningZones, fixedZones, requiredMm });
    const { marginMm, errorMm, spans } = profileOf(pair);
    let signs = 0;
    for (let k = 0; k < 4 * 360; k++) {
      const deg = -180 + k / 4;
      const turn = turnOf(deg);
      const cut = [...turningZones.map((zone) => movedZone(zone, turn)), ...fixedZones];
      const a = prepareBody(moved(turning, turn), { zones: cut, chordErrorMm: 0 });
      const b = prepareBody(fixed, { zones: cut, chordErrorMm: 0 });
      const found = measure(a, b, identity(), { limitMm: 60, depthToleranceMm: 0.01 });
      if (found.kind === 'unknown') throw new Error(found.reason);
      const marginAt = found.kind === 'beyond' ? Number.POSITIVE_INFINITY : found.distanceMm - requiredMm;
      const boundMm = found.kind === 'beyond' ? 0 : found.errorMm;
      const state = stateAt(spans, deg);
      if (state === 'clears') expect(marginAt + boundMm).toBeGreaterThanOrEqual(0);
      if (state === 'fails') expect(marginAt - boundMm).toBeLessThan(0);
      if (Math.sign(marginAt) === signOf(state)) signs += 1;
      if (k % 4 !== 0) continue;
      const at = ANGLES.indexOf(deg);
      if (Number.isFinite(marginAt) && Number.isFinite(marginMm[at]))
        expect(Math.abs(marginMm[at] - marginAt)).toBeLessThanOrEqual(errorMm[at] + boundMm);
      else expect(marginMm[at]).toBe(marginAt);
    }
    // Nearly every angle is settled, and both states occur.
    expect(signs).toBeGreaterThan(0.98 * 4 * 360);
    for (const state of ['clears', 'fails'] as const) expect(arcsOf(spans, state).length).toBeGreaterThan(0);
  });
});
