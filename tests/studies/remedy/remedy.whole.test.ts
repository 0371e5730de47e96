import { describe, expect, it } from 'vitest';
import { withRemedy } from '../../../src/studies/remedy/changedFile.ts';
import { Finder, type Refused, type Remedy } from '../../../src/studies/remedy/finder.ts';
import { type Remedies, remediesOf } from '../../../src/studies/remedy/remedy.ts';
import { Verifier } from '../../../src/studies/remedy/verify.ts';
import { studiedInputs } from '../../../src/studies/sensitivity/studiedInputs.ts';
import { measurePairsHere, sweepAndProveHere } from '../../../src/studies/vary/measurePairs.ts';
import { pairTrials } from '../../../src/studies/vary/pairTrial.ts';
import { Trials } from '../../../src/studies/vary/trials.ts';
import { SetupMemory, setUp } from '../../../src/sweep/setUp.ts';
import { readDesign } from '../../design/readDesign.ts';
import { damperOf } from '../../sweep/limitCorner.ts';
import { ARM_MM, box, boxCorner, FEW_STEPS, PIVOT, parallelArms } from '../vary/boxCorner.ts';

/** The changes of each remedy as text: "rising.centre[2] 341". */
const changesOf = (found: readonly (Remedy | Refused)[]): string[] =>
  found.map(({ changes }) =>
    changes.map(({ choices, typed }) => `${choices.input.field.name} ${typed}`).join(', '),
  );

const find = (source: Record<string, unknown>, between?: [string, string]): Promise<Remedies> =>
  remediesOf(readDesign(source), { settings: FEW_STEPS, between });

/** On these arms, and with no other point free, the upright rises without turning. */
const still = { ...parallelArms, fixed: ['hardpoints'] };

/**
 * At full bump the top of `rising` is at 350 + 15 + 60 = 425 and the underside of `fixed` 10 below its centre: at 430 the
 * two overlap by 5, and must get a gap of 3.
 */
function overlapping(changes: { centre?: unknown; unit?: 'in'; target?: number; more?: object } = {}) {
  const { centre = 430, unit, target = 3, more } = changes;
  const parts = [
    box('rising', 'upright', [0, 640, 350], [40, 40, 30]),
    { ...box('fixed', 'chassis', [0, 640, centre as number], [90, 90, 20]), ...more },
  ];
  const pairs = [{ between: ['rising', 'fixed'], target }];
  return boxCorner(parts, { suspension: still, pairs, ...(unit && { unit }) });
}

describe('the least changes of a corner in closed form', () => {
  it('are the overlap and the target, rounded outward to whole mm', async () => {
    const { hits, noHit, freeCount, fixedCount } = await find(overlapping());
    expect(hits).toHaveLength(1);
    const [{ before, remedies, refused }] = hits;
    expect([before.state, before.worst?.clearanceMm]).toEqual(['touches', expect.closeTo(-5, 6)]);
    // 8 mm would leave a margin of 0 less the error. Half of a size is not enough.
    expect(changesOf(remedies).sort()).toEqual([
      'fixed.centre[2] 439',
      'rising.centre[2] 341',
      'suspension.travel.bump 51',
    ]);
    for (const { after, failing, binding } of remedies) {
      expect(after.state).toBe('clear');
      expect(after.worst?.clearanceMm).toBeCloseTo(4, 6);
      expect([failing, binding]).toEqual([[], []]);
    }
    expect([refused, noHit]).toEqual([[], undefined]);
    expect(freeCount).toBeGreaterThan(10);
    expect(fixedCount).toBe(2 + 9 * 3);
  });

  it('are rounded outward to sixteenths of an inch, and written as such', async () => {
    const { hits } = await find(
      overlapping({ centre: '430 mm', unit: 'in', more: { centre: [0, 640, '16 15/16'] } }),
    );
    // 16 15/16 in is 430.2125 mm: the underside is 4.7875 below the top, so 7.7875 and the errors are missing.
    const lifted = changesOf(hits[0].remedies).find((text) => text.startsWith('fixed.centre'));
    expect(lifted).toBe('fixed.centre[2] 17 1/4');
    expect(Math.ceil(7.7875 / (25.4 / 16))).toBe(16 * 17.25 - (16 * 16 + 15));
  });

  it('leave fixed values alone', async () => {
    const { hits } = await find(overlapping({ more: { fixed: ['centre'] } }));
    expect(changesOf(hits[0].remedies).sort()).toEqual(['rising.centre[2] 341', 'suspension.travel.bump 51']);
    const none = await find(overlapping({ more: { fixed: true } }));
    expect(changesOf(none.hits[0].remedies).every((text) => !text.includes('fixed.'))).toBe(true);
  });

  it('are of two values if no single one reaches', async () => {
    // The gap is 5 and the target 40; a place changes by up to 25.
    const { hits } = await find(overlapping({ centre: 440, target: 40 }));
    const [{ before, remedies }] = hits;
    expect([before.state, before.worst?.clearanceMm]).toEqual(['tight', expect.closeTo(5, 6)]);
    expect(remedies.length).toBeGreaterThan(0);
    expect(changesOf(remedies)).toContain('rising.centre[2] 332, fixed.centre[2] 458');
    for (const { after } of remedies) expect(after.state).toBe('clear');
  });

  it('clear the pair when the changed file is swept by itself', async () => {
    const design = readDesign(overlapping());
    const { hits } = await remediesOf(design, { settings: FEW_STEPS });
    for (const { changes } of hits[0].remedies) {
      const setup = await setUp(readDesign(withRemedy(design, changes)), FEW_STEPS);
      const { findings } = await sweepAndProveHere(setup, []);
      expect(findings.pairs.map(({ state }) => state)).toEqual(['clear']);
    }
  });

  it('are none for a named pair that clears', async () => {
    const { hits, noHit } = await find(overlapping({ centre: 460 }), ['fixed', 'rising']);
    expect([hits, noHit?.state]).toEqual([[], 'clear']);
  });
});

/** A finder for a corner, and the result of its pair. */
async function finderOf(source: Record<string, unknown>) {
  const design = readDesign(source);
  const memory = new SetupMemory();
  const setup = await setUp(design, FEW_STEPS, memory);
  const { findings } = await sweepAndProveHere(setup, []);
  const base = pairTrials(setup, findings);
  const trials = Trials.from(setup, memory, findings, measurePairsHere);
  return {
    design,
    before: base[0],
    finder: new Finder(design, trials, new Verifier(trials, design.corner, base), {}),
  };
}

describe('a pair without slopes', () => {
  it('gets the same least changes, from the ends of the ranges', async () => {
    const { design, before, finder } = await finderOf(overlapping());
    const inputs = studiedInputs(design).filter(({ field }) => /centre\[[12]\]|size\[2\]/.test(field.name));
    const unknownDepth = { ...before, leastMarginMm: Number.NEGATIVE_INFINITY };
    const { remedies, refused } = await finder.findWithoutSlopes('rising fixed', unknownDepth, inputs);
    expect(changesOf(remedies).sort()).toEqual(['fixed.centre[2] 439', 'rising.centre[2] 341']);
    expect(refused).toEqual([]);
  });
});

describe('other pairs', () => {
  it('that a change brings too close are named, and rank it last', async () => {
    const source = overlapping() as { parts: unknown[] };
    source.parts.push(box('over', 'upright', [0, 640, 512], [40, 40, 20]));
    const pairs = [
      { between: ['rising', 'fixed'], target: 3 },
      { between: ['over', 'fixed'], target: 8 },
    ];
    // At full droop the underside of `over` is at 512 - 10 - 50 = 452, 12 above the top of `fixed`.
    const { hits } = await find({ ...source, pairs });
    const [{ remedies }] = hits;
    const last = remedies[remedies.length - 1];
    expect(changesOf([last])).toEqual(['fixed.centre[2] 439']);
    expect(last.newlyFailing.map(({ a, b, state }) => [a, b, state])).toEqual([['fixed', 'over', 'tight']]);
    expect(last.others[0]).toMatchObject({ gainMm: expect.closeTo(-9, 6), before: { state: 'clear' } });
    expect(changesOf(remedies.slice(0, 1))[0]).not.toMatch(/^fixed/);
  });
});

describe('a change that another check refuses', () => {
  it('is listed with the reason and not proposed: a damper pulled too long, a body thinner than its rod', async () => {
    const mounts = {
      chassisMount: [0, PIVOT.y + 180, 640],
      armMount: [0, PIVOT.y + 180, PIVOT.z],
      on: 'lowerArm',
    };
    // The longest length: the arm's mount has turned with the arm about the pivots.
    const sine = -50 / ARM_MM;
    const longest = Math.hypot(180 - 180 * Math.sqrt(1 - sine ** 2), 640 - PIVOT.z - 180 * sine);
    const damper = damperOf({
      openLength: longest + 0.015,
      closedLength: 250,
      bodyDiameter: 40,
      rodDiameter: 34,
      fixed: false,
    });
    // The gap to the body is 2 of 6.
    const beside = box('beside', 'chassis', [32, PIVOT.y + 180, 540], [20, 20, 20]);
    const source = boxCorner([damper, beside], {
      suspension: { ...still, damper: mounts },
      pairs: [{ between: ['damper', 'beside'], target: 6 }],
    });
    const { hits } = await find(source, ['damper.body', 'beside']);
    const [{ remedies, refused }] = hits;
    expect(changesOf(remedies)).toContain('beside.centre[0] 37');
    expect(changesOf(remedies).some((text) => text.startsWith('suspension.damper'))).toBe(false);
    const pulled = refused.find(({ changes }) =>
      changes[0].choices.input.field.name.startsWith('suspension.damper.chassisMount[0]'),
    );
    expect(pulled?.reasons).toMatchObject([
      { kind: 'limits', limits: [{ kind: 'damperOpen', state: 'binds' }] },
    ]);
    const thin = refused.find(({ changes }) => changes[0].choices.input.field.name === 'damper.bodyDiameter');
    expect(thin?.reasons).toMatchObject([{ kind: 'notBuilt', problems: [{ path: 'parts[0].rodDiameter' }] }]);
  });
});

it('stops when cancelled, with the reason of the signal', async () => {
  const cancel = new AbortController();
  const study = remediesOf(readDesign(overlapping()), {
    settings: FEW_STEPS,
    signal: cancel.signal,
    onProgress: () => cancel.abort(new Error('enough')),
  });
  await expect(study).rejects.toThrow('enough');
});
