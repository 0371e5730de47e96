import { describe, expect, it } from 'vitest';
import { pathFrom } from '../../../src/design/path.ts';
import { applyPoint, invert } from '../../../src/math/rigid.ts';
import { dot, normalize, sub, type Vec3 } from '../../../src/math/vec.ts';
import { solvePose } from '../../../src/mechanism/solvePose.ts';
import {
  type PairSensitivity,
  type Sensitivity,
  type SolidIds,
  sensitivityOf,
} from '../../../src/studies/sensitivity/sensitivity.ts';
import { sweepAndProveHere } from '../../../src/studies/vary/measurePairs.ts';
import { variedField, withAmount } from '../../../src/studies/vary/variedField.ts';
import { mechanismOf, setUp } from '../../../src/sweep/setUp.ts';
import { readDesign } from '../../design/readDesign.ts';
import { cases } from '../../oracles/random.ts';
import { DEMOS } from '../../oracles/randomWholeCorner.ts';
import { ARM_MM, BUMP_MM, box, boxCorner, FEW_STEPS } from '../vary/boxCorner.ts';
import { COARSE, fewParts } from './fewParts.ts';

const tube = (id: string, carrier: string, from: number[], to: number[], diameter: number) => ({
  id,
  kind: 'tube',
  carrier,
  from,
  to,
  diameter,
});

/** The pair of two parts. */
function pairOf({ setup, pairs }: Sensitivity, one: string, other: string): PairSensitivity {
  const found = pairs.find(({ finding }) => {
    const { a, b } = setup.pairs[finding.pair];
    return [setup.solids[a].id, setup.solids[b].id].sort().join() === [one, other].sort().join();
  });
  if (found === undefined) throw new Error(`${one} and ${other} are not studied`);
  return found;
}

const rateOf = ({ effects }: PairSensitivity, name: string) =>
  effects.find(({ value }) => value.field.name === name)?.rate;

/** Checks that both sides have one slope, with this derivative within its error. */
function expectSlope(pair: PairSensitivity, name: string, derivative: number) {
  const both = rateOf(pair, name)?.both;
  expect([name, both?.error], 'error').toEqual([name, expect.toSatisfy((error: number) => error < 0.15)]);
  expect(Math.abs((both?.perUnit ?? 0) - derivative), name).toBeLessThanOrEqual(both?.error ?? 0);
}

/** On these arms the upright rises without turning: its travel is its height. Each derivative is by hand. */
describe('slopes of a corner in closed form', () => {
  it('of a block over one that rises: bump, places and half sizes; no other place or size', async () => {
    const parts = [
      box('rising', 'upright', [0, 640, 350], [40, 40, 30]),
      box('fixed', 'chassis', [0, 640, 450], [90, 90, 20]),
    ];
    const study = await sensitivityOf(readDesign(boxCorner(parts)), { settings: FEW_STEPS });
    const pair = pairOf(study, 'rising', 'fixed');
    expect(pair.worst.clearanceMm).toBeCloseTo(450 - 10 - (350 + 15 + BUMP_MM), 6);
    const slopes: Record<string, number> = {
      'suspension.travel.bump': -1,
      'rising.centre[2]': -1,
      'rising.size[2]': -1 / 2,
      'fixed.centre[2]': 1,
      'fixed.size[2]': -1 / 2,
    };
    for (const [name, derivative] of Object.entries(slopes)) expectSlope(pair, name, derivative);
    for (const { value, rate } of pair.effects)
      if (/^(rising|fixed)\..*\[/.test(value.field.name) && !(value.field.name in slopes))
        expect([value.field.name, Math.abs(rate.both?.perUnit ?? 1) < 0.02]).toEqual([
          value.field.name,
          true,
        ]);
    expectSlope(pair, 'suspension.travel.droop', 0);
  });

  it('of crossed tubes: half the diameters, and each end by its lever', async () => {
    const parts = [
      tube('rising', 'upright', [0, 560, 350], [0, 700, 350], 20),
      tube('fixed', 'chassis', [-100, 640, 450], [300, 640, 450], 30),
    ];
    const study = await sensitivityOf(readDesign(boxCorner(parts)), { settings: FEW_STEPS });
    const pair = pairOf(study, 'rising', 'fixed');
    expectSlope(pair, 'rising.diameter', -1 / 2);
    expectSlope(pair, 'fixed.diameter', -1 / 2);
    expectSlope(pair, 'fixed.from[2]', 3 / 4);
    expectSlope(pair, 'fixed.to[2]', 1 / 4);
    expectSlope(pair, 'rising.from[2]', -60 / 140);
    expectSlope(pair, 'rising.to[2]', -80 / 140);
  });

  it('of a tube on the arm, which turns by asin(bump / length)', async () => {
    // Along the pivots' axis, 200 mm out on the arm, 40 mm over it.
    const [outMm, overMm] = [200, 40];
    const parts = [
      tube('onArm', 'lowerArm', [-30, 300 + outMm, 230 + overMm], [30, 300 + outMm, 230 + overMm], 20),
      box('fixed', 'chassis', [0, 500, 360], [200, 200, 20]),
    ];
    const study = await sensitivityOf(readDesign(boxCorner(parts)), { settings: FEW_STEPS });
    const pair = pairOf(study, 'onArm', 'fixed');
    const turned = Math.asin(BUMP_MM / ARM_MM);
    const [sine, cosine] = [Math.sin(turned), Math.cos(turned)];
    expect(pair.worst.clearanceMm).toBeCloseTo(350 - (230 + outMm * sine + overMm * cosine) - 10, 0);
    expectSlope(pair, 'suspension.travel.bump', -(outMm * cosine - overMm * sine) / (ARM_MM * cosine));
    expectSlope(pair, 'onArm.diameter', -1 / 2);
    expectSlope(pair, 'fixed.centre[2]', 1);
  });

  it('in a slot, where the other end of travel becomes the worst: both sides apart', async () => {
    const [low, high] = [350 - 50, 350 + BUMP_MM];
    const outline = [
      [0, 600, low - 60],
      [0, 720, low - 60],
      [0, 720, low - 40],
      [0, 620, low - 40],
      [0, 620, high + 40],
      [0, 720, high + 40],
      [0, 720, high + 60],
      [0, 600, high + 60],
    ];
    const parts = [
      box('rising', 'upright', [5, 690, 350], [4, 30, 20]),
      { id: 'slot', kind: 'plate', carrier: 'chassis', outline, thickness: 10 },
    ];
    const study = await sensitivityOf(readDesign(boxCorner(parts)), { settings: FEW_STEPS });
    const rate = rateOf(pairOf(study, 'rising', 'slot'), 'rising.centre[2]');
    expect(rate?.both).toBeUndefined();
    expect(rate?.below?.perUnit).toBeCloseTo(1, 6);
    expect(rate?.above?.perUnit).toBeCloseTo(-1, 6);
  });
});

/** Studies by demo; each takes some 15 s. */
const studies = new Map<string, Promise<Sensitivity>>();
function studied(name: (typeof DEMOS)[number]): Promise<Sensitivity> {
  const study = studies.get(name) ?? sensitivityOf(fewParts(name), { settings: COARSE });
  studies.set(name, study);
  return study;
}

describe('a demo corner', () => {
  it('has slope 1 exactly with the gap of two flat faces along the axle', async () => {
    const rate = rateOf(pairOf(await studied('larkrise'), 'rotor', 'caliper'), 'caliper.body.faceGap');
    expect(rate?.below?.perUnit).toBeCloseTo(1, 6);
  });

  it.each(DEMOS.slice(0, cases(1, 3)))(
    'agrees with whole sweeps and proofs of changed corners: %s',
    async (name) => {
      const study = await studied(name);
      const names = [
        'wheel.backspacing',
        'wheel.wall',
        'suspension.travel.bump',
        'suspension.hardpoints.tieRodOuter[1]',
      ];
      let compared = 0;
      for (const fieldName of names) {
        const field = variedField(study.setup.design.source, fieldName);
        const value = study.values.find((one) => one.field.name === fieldName);
        if (value === undefined) continue;
        const least = async (by: number) => {
          const source = withAmount(study.setup.design.source, field, Number(value.input.value) + by);
          const setup = await setUp(readDesign(source), COARSE);
          const { findings } = await sweepAndProveHere(setup, []);
          return new Map(
            findings.pairs.map(({ pair, worst }) => [
              [setup.solids[setup.pairs[pair].a].id, setup.solids[setup.pairs[pair].b].id].join(),
              worst,
            ]),
          );
        };
        const [below, above] = [await least(-1), await least(1)];
        for (const { finding, effects } of study.pairs) {
          const { a, b } = study.setup.pairs[finding.pair];
          const id = [study.setup.solids[a].id, study.setup.solids[b].id].join();
          const [low, high] = [below.get(id), above.get(id)];
          const rate = effects.find((effect) => effect.value === value)?.rate;
          if (low === undefined || high === undefined || rate?.both === undefined) continue;
          // The proof leaves 0.1 mm of each clearance open.
          const error = rate.both.error + (low.errorMm + high.errorMm) / 2 + 0.1;
          expect(
            Math.abs((high.clearanceMm - low.clearanceMm) / 2 - rate.both.perUnit),
            `${id} ${fieldName}`,
          ).toBeLessThanOrEqual(error);
          compared += 1;
        }
      }
      expect(compared).toBeGreaterThan(12);
    },
  );

  it('agrees with the contact normal times the motion of the nearest points, where a part only moves', async () => {
    const study = await studied('larkrise');
    let compared = 0;
    for (const axis of [0, 1, 2]) {
      const name = `suspension.hardpoints.tieRodInner[${axis}]`;
      const path = pathFrom(name) ?? [];
      const value = study.values.find((one) => one.field.name === name);
      const changedBy = (by: number) =>
        mechanismOf(
          readDesign(
            withAmount(
              study.setup.design.source,
              { name, path, kind: 'length' },
              Number(value?.input.value) + by,
            ),
          ).corner,
        );
      const [low, high] = [changedBy(-0.5), changedBy(0.5)];
      for (const { finding, worst, effects } of study.pairs) {
        const pair = study.setup.pairs[finding.pair];
        const carriers = [pair.a, pair.b].map((solid) => study.setup.solids[solid].carrier);
        // The tie rod itself changes its length, and the parts on the rack move with its end.
        if (
          !pair.moves ||
          carriers.some((carrier) => ['tieRod', 'rack'].includes(carrier)) ||
          worst.clearanceMm < 1
        )
          continue;
        const both = effects.find((effect) => effect.value === value)?.rate.both;
        const here = solvePose(study.setup.mechanism, worst.travelMm, worst.steer);
        const poses = [low, high].map((mechanism) => solvePose(mechanism, worst.travelMm, worst.steer));
        if (both === undefined || here.kind !== 'solved') continue;
        const movedBy = (carrier: string, point: Vec3): Vec3 => {
          const own = applyPoint(invert(here.carriers[carrier]), point);
          const [from, to] = poses.map((pose) => {
            if (pose.kind !== 'solved') throw new Error('not reached');
            return applyPoint(pose.carriers[carrier], own);
          });
          return sub(to, from);
        };
        const normal = normalize(sub(worst.pointB, worst.pointA));
        const expected = dot(
          normal,
          sub(movedBy(carriers[1], worst.pointB), movedBy(carriers[0], worst.pointA)),
        );
        expect(Math.abs(both.perUnit - expected), `${carriers} ${name}`).toBeLessThanOrEqual(both.error);
        compared += 1;
      }
    }
    expect(compared).toBeGreaterThan(12);
  });
});

describe('a study of some pairs', () => {
  const parts = [
    box('rising', 'upright', [0, 640, 350], [40, 40, 30]),
    box('fixed', 'chassis', [0, 640, 450], [90, 90, 20]),
    box('other', 'chassis', [0, 640, 260], [90, 90, 20]),
  ];

  it('has the slopes that the pairs have in a study of all pairs', async () => {
    const design = readDesign(boxCorner(parts));
    const whole = await sensitivityOf(design, { settings: FEW_STEPS });
    expect(whole.among).toBeUndefined();
    const slopes = (study: typeof whole, other: string) =>
      pairOf(study, 'rising', other).effects.map(({ value, rate }) => [value.field.name, rate] as const);
    const one = await sensitivityOf(design, { settings: FEW_STEPS, among: [['fixed', 'rising']] });
    expect(one).toMatchObject({ among: [['fixed', 'rising']], pairs: { length: 1 } });
    expect(slopes(one, 'fixed')).toEqual(slopes(whole, 'fixed'));
    const both: SolidIds[] = [
      ['fixed', 'rising'],
      ['rising', 'other'],
    ];
    const two = await sensitivityOf(design, { settings: FEW_STEPS, among: both });
    expect(two.pairs).toHaveLength(2);
    for (const other of ['fixed', 'other']) expect(slopes(two, other)).toEqual(slopes(whole, other));
  });

  it('rejects a part that does not exist, and a pair that is not measured', async () => {
    const design = readDesign(boxCorner(parts));
    const study = (between: [string, string]) =>
      sensitivityOf(design, { settings: FEW_STEPS, among: [between] });
    await expect(study(['rising', 'fixd'])).rejects.toThrow(
      '"fixd" is not a part of this corner. Did you mean "fixed"? Parts: rising, fixed, other',
    );
    await expect(study(['fixed', 'other'])).rejects.toThrow(
      'fixed and other are not measured against each other',
    );
  });

  it('rejects with the reason of a cancellation', async () => {
    const controller = new AbortController();
    const study = sensitivityOf(readDesign(boxCorner(parts)), {
      settings: FEW_STEPS,
      signal: controller.signal,
      onProgress: () => controller.abort(new Error('enough')),
    });
    await expect(study).rejects.toThrow('enough');
  });
});
