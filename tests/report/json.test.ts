import { describe, expect, it } from 'vitest';
import { CLEARANCE_KINDS } from '../../src/clearance/clearance.ts';
import { shownRigid } from '../../src/design/side.ts';
import { doubleWishboneRack } from '../../src/layouts/doubleWishboneRack/layout.ts';
import { applyPoint } from '../../src/math/rigid.ts';
import { normalize, scale } from '../../src/math/vec.ts';
import { findingsJson } from '../../src/report/findingsJson.ts';
import { carrierAt } from '../../src/report/placeInWords.ts';
import { resultsJson } from '../../src/report/resultsJson.ts';
import { atPose, proofOf } from '../oracles/inventedProof.ts';
import { mulberry32 } from '../oracles/random.ts';
import { cornerSource } from './cornerSource.ts';
import { type FixtureOptions, reportInput } from './fixture.ts';

const CARRIERS = Object.keys(doubleWishboneRack.carriers);

const MIXED: FixtureOptions = {
  reaches: (travelMm) => travelMm < 50,
  measure: (pair, travelMm, steer) => {
    if (pair === 0) return { mm: 3 + 0.1234567 * travelMm - 2 * steer, errorMm: 0.1 };
    if (pair === 2) return { mm: Number.POSITIVE_INFINITY, errorMm: 0 };
    return travelMm < -40 ? undefined : { mm: 30, errorMm: 0.05 };
  },
};

describe.each(['left', 'right'] as const)('results.json of a %s corner', (side) => {
  const input = reportInput({ ...MIXED, source: cornerSource({ side }) });
  const { result } = input;
  const read = JSON.parse(resultsJson(input, '1.2.3'));
  const steps = result.poseState.length;
  const mirror = side === 'right' ? -1 : 1;

  it('contains every step and pair', () => {
    expect(read).toMatchObject({
      format: 'daylight.results',
      version: 2,
      designHash: input.design.hash,
      side,
      settings: result.settings,
      carriers: CARRIERS,
    });
    expect(read.travelMm).toHaveLength(5);
    expect(read.poses).toHaveLength(steps);
    expect(read.pairs).toHaveLength(result.pairs.length);
    expect(read.poseState).toBe('s'.repeat(20) + 'u'.repeat(5));
    expect(read.steer[0]).toBe(-mirror);
    expect(read.rackMm.at(-1)).toBe(mirror * 40);
  });

  it('contains clearances, errors and states to 1e-6', () => {
    let numbers = 0;
    for (const [index, pair] of read.pairs.entries()) {
      expect(pair.state).toHaveLength(steps);
      for (let step = 0; step < steps; step++) {
        const at = index * steps + step;
        const mm = result.clearanceMm[at];
        expect(pair.state[step]).toBe({ pending: '-' }[kindAt(at)] ?? kindAt(at)[0]);
        if (!Number.isFinite(mm)) {
          expect([pair.clearanceMm[step], pair.errorMm[step], pair.pointsMm[step]]).toEqual([
            null,
            null,
            null,
          ]);
          continue;
        }
        numbers += 1;
        expect(Math.abs(pair.clearanceMm[step] - mm)).toBeLessThanOrEqual(0.5e-6 + 1e-12);
        expect(Math.abs(pair.errorMm[step] - result.errorMm[at])).toBeLessThanOrEqual(0.5e-6 + 1e-12);
        for (let k = 0; k < 6; k++) {
          const sign = k % 3 === 1 ? mirror : 1;
          expect(Math.abs(pair.pointsMm[step][k] - sign * result.points[6 * at + k])).toBeLessThanOrEqual(
            0.5e-6 + 1e-9,
          );
        }
      }
    }
    expect(numbers).toBeGreaterThan(40);
  });

  it('contains each carrier as a rigid 4x4 matrix that moves the witness points as the sweep does', () => {
    expect(read.poses[steps - 1]).toBeNull();
    for (const pose of read.poses.filter((one: unknown) => one !== null)) {
      expect(pose).toHaveLength(CARRIERS.length);
      for (const m of pose as number[][]) {
        expect(m).toHaveLength(16);
        expect(m.slice(12)).toEqual([0, 0, 0, 1]);
        const det =
          m[0] * (m[5] * m[10] - m[6] * m[9]) -
          m[1] * (m[4] * m[10] - m[6] * m[8]) +
          m[2] * (m[4] * m[9] - m[5] * m[8]);
        expect(Math.abs(det - 1)).toBeLessThan(1e-11);
      }
    }
    // The witness point (110.5, 310, 255) of the tie rod at ride height, for the side shown.
    const tieRod = CARRIERS.indexOf('tieRod');
    for (let step = 0; step < 20; step++) {
      const m = read.poses[step][tieRod];
      const p = [110.5, mirror * 310, 255];
      const moved = [0, 4, 8].map((r) => m[r] * p[0] + m[r + 1] * p[1] + m[r + 2] * p[2] + m[r + 3]);
      moved.forEach((value, k) => {
        // The points are rounded to a millionth.
        expect(Math.abs(value - read.pairs[0].pointsMm[step][k])).toBeLessThan(1e-6);
      });
    }
  });

  it('places a point at 1 m to 1e-9 mm, and contains residuals without rounding', () => {
    const seed = 20260711;
    const random = mulberry32(seed);
    for (let step = 0; step < 20; step++) {
      CARRIERS.forEach((carrier, c) => {
        const direction = normalize([random() - 0.5, random() - 0.5, random() - 0.5]);
        const p = scale(direction, 1000);
        const exact = applyPoint(shownRigid(side, carrierAt(input.design.corner, result, step, carrier)), p);
        const m: number[] = read.poses[step][c];
        [0, 4, 8].forEach((r, k) => {
          const value = m[r] * p[0] + m[r + 1] * p[1] + m[r + 2] * p[2] + m[r + 3];
          expect(Math.abs(value - exact[k]), `seed ${seed}`).toBeLessThan(1e-9);
        });
      });
      expect(read.residualMm[step]).toBe(result.residualMm[step]);
    }
    expect(Math.max(...read.residualMm.slice(0, 20))).toBeGreaterThan(0);
    expect(read.residualMm.slice(20)).toEqual([null, null, null, null, null]);
  });

  function kindAt(at: number): string {
    return CLEARANCE_KINDS[result.state[at]];
  }
});

describe('findings as JSON', () => {
  it('contain verdict, worst cases and unreachable poses', () => {
    const input = reportInput(MIXED);
    const read = JSON.parse(findingsJson(input, '1.2.3'));
    expect(read.verdict).toBe('touches');
    expect(read.counts).toEqual(input.findings.counts);
    expect(read).toMatchObject({ format: 'daylight.findings', version: 3 });
    expect([read.provenBetweenSteps, read.lockedOut]).toEqual([false, null]);
    expect(read.pairs.every((pair: Record<string, unknown>) => pair.provenAtLeastMm === null)).toBe(true);
    expect(read.pairs[0].worst.atStep).toBe(true);
    expect(read.pairs[0]).toMatchObject({ a: 'tieRod', b: 'battery', state: 'touches', targetMm: 5 });
    // 3 - 0.1234567 x 50 - 2 at full droop and full rack.
    expect(read.pairs[0].worst).toMatchObject({
      clearanceMm: -5.172835,
      travelMm: -50,
      rackMm: 40,
      marginMm: -10.172835,
    });
    expect(read.pairs.at(-1)).toMatchObject({ state: 'far', worst: null });
    expect(read.unreachable).toEqual([{ travelMm: [60, 60], rackMm: [-30, 40] }]);
    expect(read.unchecked).toEqual([
      { a: 'lowerArm', b: 'tieRod', why: expect.stringContaining('bolted'), coveredBy: [] },
    ]);
    expect(read.assumedInputs).toContain('parts[2].endGap');
  });

  it('contain no NaN or Infinity', () => {
    const text = findingsJson(reportInput(MIXED), '1.2.3');
    expect(text).not.toMatch(/NaN|Infinity/);
  });

  it.each(['left', 'right'] as const)(
    'contain the bounds proven between the steps of a %s corner',
    (side) => {
      const proved = (bounds: Parameters<typeof proofOf>[0]): FixtureOptions => ({
        source: cornerSource({ side }),
        proof: ({ carriers }) => {
          const between = atPose(4.7, { carriers: carriers.subarray(0, 108) });
          return proofOf(
            [{ lowerMm: 4.6, foundMm: 4.7, between }, ...bounds],
            [{ travelMm: [20, 60], steer: [-0.5, 1], whole: true, reason: undefined }],
          );
        },
      });
      const rest = { lowerMm: 19.95, foundMm: 20 };
      const read = JSON.parse(findingsJson(reportInput(proved([rest, rest, rest])), '1.2.3'));
      expect(read).toMatchObject({ provenBetweenSteps: true, verdict: 'unknown' });
      // 4.6 less the error of 0.1.
      expect(read.pairs[0]).toMatchObject({
        a: 'tieRod',
        b: 'battery',
        state: 'tight',
        provenAtLeastMm: 4.5,
      });
      const rackMm = side === 'left' ? 15 : -15;
      expect(read.pairs[0].worst).toMatchObject({ atStep: false, clearanceMm: 4.7, travelMm: 12.5, rackMm });
      expect(read.pairs[1]).toMatchObject({ provenAtLeastMm: 19.85, worst: { atStep: true } });
      expect(read.lockedOut).toEqual([
        {
          travelMm: [20, 60],
          rackMm: side === 'left' ? [-15, 40] : [-40, 15],
          reachedInPart: false,
          why: null,
        },
      ]);
      const unproven = JSON.parse(findingsJson(reportInput(proved([rest, {}, rest])), '1.2.3'));
      expect(unproven.provenBetweenSteps).toBe(false);
      expect(unproven.pairs[0]).toMatchObject({ state: 'unknown', provenAtLeastMm: null });
    },
  );
});
