import { describe, expect, it } from 'vitest';
import type { Design } from '../../../src/design/design.ts';
import { limitsOf } from '../../../src/proof/limits.ts';
import type { StopGoal } from '../../../src/studies/limits/stopSearch.ts';
import { type Stop, stopsOf, withStop } from '../../../src/studies/limits/stops.ts';
import { sweepAndProveHere } from '../../../src/studies/vary/measurePairs.ts';
import { pairId } from '../../../src/sweep/pair.ts';
import { setUp } from '../../../src/sweep/setUp.ts';
import { readDesign } from '../../design/readDesign.ts';
import { cases } from '../../oracles/random.ts';
import { demoSource, randomWholeCorner } from '../../oracles/randomWholeCorner.ts';
import { fewParts } from '../sensitivity/fewParts.ts';
import { ARM_MM, box, boxCorner, FEW_STEPS, parallelArms } from '../vary/boxCorner.ts';

const COARSE = { ...FEW_STEPS, chordToleranceMm: 0.2 };

/** A damper from the chassis straight down to the lower arm, 200 mm from its pivots. */
const DAMPER = { chassisMount: [0, 500, 700], armMount: [0, 500, 230], on: 'lowerArm' };
const STEERED = {
  ...parallelArms,
  damper: DAMPER,
  steering: { rackOutboard: 40, rackInboard: 40 },
};
/** The box on the upright rises with the wheel to within `gap` mm of the fixed box above it. */
const under = (gap: number, changes: Record<string, unknown> = {}) =>
  readDesign(
    boxCorner(
      [
        box('rising', 'upright', [0, 640, 350], [40, 40, 30]),
        box('fixed', 'chassis', [0, 640, 365 + 60 + gap + 10], [200, 200, 20]),
      ],
      { suspension: { ...STEERED, steering: { rackOutboard: 0, rackInboard: 0 } }, ...changes },
    ),
  );

describe('stops of boxes on parallel arms', () => {
  it('keep the bump up to the target, and give the length of the damper there', async () => {
    // At full bump the boxes overlap by 5 mm; with a target of 3 mm, 52 mm of bump is just too much to be shown.
    const design = under(-5, { pairs: [{ between: ['rising', 'fixed'], target: 3 }] });
    const { stops, asked, region, failing, always } = await stopsOf(design, { settings: FEW_STEPS });
    expect(asked).toEqual({ bump: 60, droop: 50, outboard: 0, inboard: 0 });
    expect([failing.length, always]).toEqual([1, []]);
    expect(region?.share).toBeGreaterThan(0.9);
    expect(stops.lock).toBeUndefined();
    const stop = stops.travel ?? expect.fail('no stop');
    expect([51, 52]).toContain(stop.kept.bump);
    expect(stop).toMatchObject({ failing: [], share: (stop.kept.bump + 50) / 110 });
    const [end] = stop.ends;
    const angle = Math.asin(stop.kept.bump / ARM_MM);
    const mount = [300 + 200 * Math.cos(angle) - 500, 230 + 200 * Math.sin(angle) - 700];
    expect(end.damperMm).toBeCloseTo(Math.hypot(...mount), 9);
    expect(readDesign(withStop(design, stop)).corner.suspension.travel).toEqual({
      bump: stop.kept.bump,
      droop: 50,
    });
  });

  it('find nothing to stop if all is clear, or if no stop can clear it', async () => {
    const clear = await stopsOf(under(20), { settings: FEW_STEPS });
    expect(Object.values(clear.stops)).toEqual([undefined, undefined, undefined]);
    expect([clear.failing, clear.always, clear.region?.share]).toEqual([[], [], 1]);
    const always = await stopsOf(under(-70), { settings: FEW_STEPS });
    expect(Object.values(always.stops)).toEqual([undefined, undefined, undefined]);
    expect([always.failing, always.always]).toEqual([[], [{ kind: 'pair', pair: 0 }]]);
  });
});

/** Whether a changed corner is clear: its own sweep and proof, without the study. `ignored`: pairs that no stop clears. */
async function isClear(source: unknown, goal: StopGoal, ignored: ReadonlySet<string>): Promise<boolean> {
  const setup = await setUp(readDesign(source), COARSE);
  const { design, mechanism, travelMm, steer } = setup;
  const limits = limitsOf(design.corner, mechanism, travelMm, steer);
  const { findings } = await sweepAndProveHere(setup, limits);
  const known = findings.limits.filter(({ allowed }) => allowed !== undefined);
  const bad = findings.pairs.filter(
    ({ pair, state }) =>
      !ignored.has(pairId(setup.solids, setup.pairs[pair])) &&
      (state === 'touches' || state === 'unknown' || (goal === 'margins' && state === 'tight')),
  );
  return bad.length === 0 && known.every(({ state }) => state !== 'binds');
}

/** Applies each stop of a corner and sweeps it again. Returns the stops. */
async function checkStops(design: Design, goal: StopGoal, where: string): Promise<Stop[]> {
  const { stops, setup, always } = await stopsOf(design, { settings: COARSE, goal });
  // A limit that binds at ride height is not told apart from one that binds elsewhere.
  if (always.some(({ kind }) => kind === 'limit')) return [];
  const ignored = new Set(
    always.flatMap((bound) => (bound.kind === 'pair' ? [pairId(setup.solids, setup.pairs[bound.pair])] : [])),
  );
  const found = Object.values(stops).filter((stop) => stop !== undefined);
  for (const stop of found) {
    expect(stop.failing, `${where} ${stop.kind}`).toEqual([]);
    expect(await isClear(withStop(design, stop), goal, ignored), `${where} ${stop.kind}`).toBe(true);
  }
  return found;
}

describe('a corner with its stops applied', () => {
  it('has no contact and keeps every margin beside the wheel of the demo, and with one step less of lock cut it does not', async () => {
    const design = fewParts('gravelbeck-mm', {}, ['wheel', 'tieRod']);
    const [stop] = await checkStops(design, 'margins', 'gravelbeck');
    expect(stop).toMatchObject({ kind: 'lock', ends: [{ end: 'outboard', asked: 68 }] });
    const { kept, spacerMm } = stop.ends[0];
    expect(spacerMm).toBe(68 - kept);
    const wider = { ...stop, changes: [{ ...stop.changes[0], typed: kept + 1 }] };
    expect(await isClear(withStop(design, wider), 'margins', new Set())).toBe(false);
  });

  it.runIf(cases(0, 1))('has no contact in any demo', async () => {
    for (const name of ['larkrise', 'stoneyholt', 'gravelbeck-mm'] as const)
      await checkStops(readDesign(demoSource(name)), 'contact', name);
  });

  it.each(Array.from({ length: cases(0, 30) }, (_, k) => 1 + k))('has no contact, seed %i', async (seed) => {
    const { design } = await randomWholeCorner(seed, COARSE);
    await checkStops(design, 'contact', `seed ${seed}`);
  });
});
