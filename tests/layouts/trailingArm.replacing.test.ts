import { afterAll, describe, expect, it, vi } from 'vitest';
import { poseBrief } from '../../src/app/kit/words.ts';
import { partGroups } from '../../src/app/shell/partGroups.ts';
import type { OpenCorner } from '../../src/app/state/engine.ts';
import { additions } from '../../src/app/state/partEdits.ts';
import { steerScale } from '../../src/app/state/steering.ts';
import { pointsOf } from '../../src/app/tools/points/pointsOf.ts';
import { jointsOf } from '../../src/app/workers/tape/pick.ts';
import { offeredOf } from '../../src/app/workers/vary/offered.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { applyPoint } from '../../src/math/rigid.ts';
import { range } from '../../src/math/taylorModel.ts';
import { movedPoint } from '../../src/math/taylorVec.ts';
import type { Vec3 } from '../../src/math/vec.ts';
import { alignmentAt } from '../../src/mechanism/alignment.ts';
import { inputAt } from '../../src/mechanism/assemble.ts';
import { encloseCarriers } from '../../src/mechanism/carriers.ts';
import { encloseAssembly } from '../../src/mechanism/enclosure.ts';
import { prepareMechanism, solvePose } from '../../src/mechanism/mechanism.ts';
import { routeTo } from '../../src/mechanism/solvePose.ts';
import { figuresIn } from '../../src/report/figures.ts';
import type { Solid } from '../../src/solids/solid.ts';
import { readDesign } from '../design/readDesign.ts';
import { solved } from '../mechanism/solved.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { ARM_MM, LOCK_DEG, OFFSET_MM, trailingCorner } from './trailingArm/corner.ts';

// Test files share the modules that they import. This one gets its own, and the next one the real registry again.
vi.hoisted(() => vi.resetModules());
vi.mock(import('../../src/layouts/registry.ts'), () => import('./registry.ts'));
afterAll(() => {
  vi.doUnmock(import('../../src/layouts/registry.ts'));
  vi.resetModules();
});

const RAD = Math.PI / 180;

const { corner } = readDesign(trailingCorner());
const { suspension } = corner;
const mechanism = prepareMechanism(suspension);
const inputDeg = (steer: number) => steer * (steer > 0 ? LOCK_DEG.outboard : LOCK_DEG.inboard);

/** Place of a point of the upright: turned by `steerDeg` about the upright kingpin, then by the arm about its pivots. */
function byHand([x, y, z]: Vec3, armRad: number, steerDeg: number): Vec3 {
  const [c, s] = [Math.cos(steerDeg * RAD), Math.sin(steerDeg * RAD)];
  const turned = [x * c - (y - 560) * s, 560 + x * s + (y - 560) * c, z];
  const [dx, dz] = [turned[0] - ARM_MM, turned[2] - 320];
  const [ca, sa] = [Math.cos(armRad), Math.sin(armRad)];
  return [ARM_MM + dx * ca + dz * sa, turned[1], 320 - dx * sa + dz * ca];
}

/** Angle of the arm for a rise of the wheel centre, which is `ARM_MM + OFFSET_MM sin(steer)` behind the pivots. */
const armRadFor = (travelMm: number, steerDeg: number) =>
  Math.asin(travelMm / (ARM_MM + OFFSET_MM * Math.sin(steerDeg * RAD)));

describe('a trailing arm, from its folder and one line of the registry', () => {
  it('has the poses of the plane by hand', () => {
    const random = mulberry32(7);
    for (let k = 0; k < 200; k++) {
      const [travelMm, steer] = [between(random, -70, 80), between(random, -1, 1)];
      const { carriers, residualMm } = solved(mechanism, travelMm, steer);
      const armRad = armRadFor(travelMm, inputDeg(steer));
      const p: Vec3 = [between(random, -200, 200), between(random, 400, 800), between(random, 200, 500)];
      applyPoint(carriers.upright, p).forEach((x, c) => {
        expect(x).toBeCloseTo(byHand(p, armRad, inputDeg(steer))[c], 8);
      });
      applyPoint(carriers.arm, p).forEach((x, c) => {
        expect(x).toBeCloseTo(byHand(p, armRad, 0)[c], 8);
      });
      expect(residualMm).toBeLessThan(1e-9);
    }
  });

  it('has the alignment by hand: caster of the arm, wheel angle of the kingpin', () => {
    const at = (travelMm: number, steer: number) =>
      alignmentAt(mechanism, solved(mechanism, travelMm, steer), { radiusMm: 320, planeMm: 0 });
    expect(at(60, 0).casterDeg).toBeCloseTo(-armRadFor(60, 0) / RAD, 9);
    expect(at(60, 0).armAngleDeg).toBeCloseTo(armRadFor(60, 0) / RAD, 9);
    expect(at(0, 1).roadWheelAngleDeg).toBeCloseTo(LOCK_DEG.outboard, 9);
    expect(at(0, -1).roadWheelAngleDeg).toBeCloseTo(-LOCK_DEG.inboard, 9);
  });

  it('ends where the arm goes over centre', () => {
    const pose = solvePose(mechanism, ARM_MM + 1, 0);
    if (pose.kind === 'solved') return expect.fail('is reached');
    expect(pose.reason).toMatch(/over centre/);
    expect(pose.nearest.travelMm).toBeCloseTo(ARM_MM, 6);
  });

  it('is enclosed over cells that contain every pose', () => {
    const random = mulberry32(11);
    for (let k = 0; k < 20; k++) {
      const [travelMm, steer] = [between(random, -60, 70), between(random, 0.1, 0.9)];
      const [travelHalfMm, half] = [6, 0.08];
      const input = inputAt(mechanism, steer);
      const cell = { travelMm, travelHalfMm, input, inputHalf: inputAt(mechanism, half) };
      const posed = encloseAssembly(mechanism, cell, routeTo(mechanism, travelMm, input).at.armRad);
      if (posed === undefined) return expect.fail(`cell ${k} is not enclosed`);
      const over = encloseCarriers(mechanism, posed);
      for (let sample = 0; sample < 10; sample++) {
        const travel = travelMm + between(random, -1, 1) * travelHalfMm;
        const { carriers } = solved(mechanism, travel, steer + between(random, -1, 1) * half);
        for (const carrier of mechanism.carriers) {
          const model = movedPoint(over[carrier], [30, 600, 300]);
          applyPoint(carriers[carrier], [30, 600, 300]).forEach((x, c) => {
            const { low, high } = range(model[c]);
            expect(x, carrier).toBeGreaterThanOrEqual(low - 1e-8);
            expect(x, carrier).toBeLessThanOrEqual(high + 1e-8);
            expect(high - low, carrier).toBeLessThan(60);
          });
        }
      }
    }
  });

  it('rejects fields, parts, joints and carriers of other layouts', () => {
    const source = trailingCorner();
    const linesOf = (changed: object) => {
      const parsed = parseDesign(JSON.stringify({ ...source, ...changed }));
      return parsed.kind === 'bad' ? parsed.problems.map(({ path, message }) => `${path}: ${message}`) : [];
    };
    const tube = {
      id: 'one',
      kind: 'tube',
      carrier: 'lowerArm',
      from: [0, 0, 0],
      to: [0, 0, 9],
      diameter: 4,
    };
    expect(
      linesOf({ parts: [...source.parts, tube, { id: 'rod', kind: 'tieRod', tubeDiameter: 20 }] }),
    ).toEqual([
      expect.stringMatching(/^parts\[7\]\.carrier: is not one of the suspension layout "trailingArm"/),
      expect.stringMatching(
        /^parts\[8\]\.kind: the suspension layout "trailingArm" has no part of this kind/,
      ),
    ]);
    const steering = { rackOutboard: 40, rackInboard: 40 };
    expect(linesOf({ suspension: { ...source.suspension, steering } }).join()).toMatch(/outboardDeg/);
  });
});

describe('the modules of the workbench', () => {
  const figures = figuresIn('mm');

  it('write the pose in the words of the layout', () => {
    expect(poseBrief(corner, -70, 1, figures)).toBe('droop −70 mm, kingpin +25°');
    expect(poseBrief(corner, 0, 0, figures)).toBe('ride height, straight ahead');
    const scale = steerScale(corner);
    expect([scale.left, scale.right, scale.unit('in')]).toEqual([25, -30, '°']);
    expect(scale.steer(-15)).toBeCloseTo(-0.5, 12);
  });

  it('show its points on the members that they move with', () => {
    const points = pointsOf(trailingCorner(), suspension, 'mm');
    expect(points.map(({ name, carrier }) => `${name}: ${carrier}`)).toEqual([
      'Pivot inboard: chassis',
      'Pivot outboard: chassis',
      'Kingpin lower: arm',
      'Kingpin upper: arm',
      'Wheel centre: upright',
      'Chassis mount: chassis',
      'Arm mount: arm',
    ]);
  });

  it('group its parts, name its joints, and offer its stops', () => {
    const solids = ['arm', 'upright', 'wheel'].map((carrier) => ({ carrier })) as Solid[];
    expect(partGroups(suspension, solids).map(({ title }) => title)).toEqual([
      'Turns with the wheel',
      'Upright',
      'Trailing arm',
    ]);
    const attachments = [{ name: 'kingpinUpper', at: suspension.hardpoints.kingpinUpper }];
    expect(jointsOf(suspension, { attachments } as unknown as Solid)[0].joint).toBe('upper kingpin joint');
    const offered = offeredOf({ design: readDesign(trailingCorner()) } as OpenCorner, 'mm').map(
      ({ name }) => name,
    );
    expect(offered).toContain('suspension.steering.outboardDeg');
  });

  it('offer the parts that it can have', () => {
    const whys = new Map(additions(trailingCorner(), corner).map(({ kind, why }) => [kind, why]));
    expect(whys.get('joint')).toBeUndefined();
    expect(whys.get('box')).toBeUndefined();
    for (const kind of ['tieRod', 'upright', 'controlArm'] as const) expect(whys.get(kind)).toBeDefined();
  });
});
