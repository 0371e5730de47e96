import { describe, expect, it } from 'vitest';
import type { Carrier, Corner, PartEntry } from '../../../src/design/schema.ts';
import { identity } from '../../../src/math/rigid.ts';
import { addScaled, type Vec3 } from '../../../src/math/vec.ts';
import { BUILDERS } from '../../../src/parts/builders.ts';
import type { Builder } from '../../../src/solids/build.ts';
import { jointEntry } from '../../../src/solids/jointPlace.ts';
import { loadModeller, type Manifold, type Modeller, rod, takeMesh } from '../../../src/solids/modeller.ts';
import { intendedBetween } from '../../../src/studies/audit/intended.ts';
import type { SolidRef } from '../../../src/studies/audit/intendedContact.ts';
import { sharedAt, type WholeSolid } from '../../../src/studies/audit/shared.ts';
import { alongWheelAxis } from '../../../src/studies/audit/wheelAxisRegion.ts';
import { benchCorner, boltsOf, contextOf, entryOf } from '../../solids/benchCorner.ts';

const CHORD_MM = 0.1;
const named = (corner: Corner, id: string, carrier: Carrier): SolidRef => ({
  id,
  partIndex: corner.parts.findIndex((part) => part.id === id.replace(/\..*/, '')),
  carrier,
});

/** The volume that two bodies share at ride height, and how much of it is intended between two solids of a corner. */
async function shares(corner: Corner, [a, one]: [SolidRef, WholeSolid], [b, other]: [SolidRef, WholeSolid]) {
  const intended = intendedBetween(corner, a, b);
  const placed = {
    vehicleFromA: identity(),
    vehicleFromB: identity(),
    vehicleFromRegion: intended.map(() => identity()),
  };
  const [shared] = sharedAt(
    await loadModeller(),
    one,
    other,
    intended.map(({ region }) => region),
    [placed],
  );
  return shared;
}

async function modelled(make: (modeller: Modeller) => Manifold): Promise<WholeSolid> {
  const modeller = await loadModeller();
  try {
    return { mesh: takeMesh(make(modeller), identity()), chordErrorMm: CHORD_MM };
  } finally {
    modeller.release();
  }
}

/** A round bar along an axis through a point, between two lengths along it. */
const bar = (centre: Vec3, axis: Vec3, fromMm: number, toMm: number, radiusMm: number) =>
  modelled((modeller) =>
    rod(modeller, addScaled(centre, axis, fromMm), addScaled(centre, axis, toMm), radiusMm, CHORD_MM),
  );

async function solidOf(corner: Corner, id: string): Promise<[SolidRef, WholeSolid]> {
  const partIndex = corner.parts.findIndex((part) => part.id === id.replace(/\..*/, ''));
  const entry = corner.parts[partIndex];
  const build = BUILDERS[entry.kind] as Builder<PartEntry>;
  const solid = build(entry, await contextOf(corner, CHORD_MM)).find((one) => one.id === id);
  if (solid === undefined) throw new Error(`there is no ${id}`);
  return [{ ...solid, partIndex }, solid];
}

const UP: Vec3 = [0, 0, 1];

describe('intended contact at a joint of the upright', () => {
  const corner = benchCorner();
  const joint = jointEntry(corner, 'lowerJoint')!;
  const centre = corner.suspension.hardpoints.lowerJoint;
  const upright = entryOf(corner, 'upright');
  const bolt = named(corner, `${joint.id}.bolt`, 'upright');
  const { jointGap, jointMounts } = upright;

  it('explains the bolt in its boss', async () => {
    const body = await bar(centre, UP, -40, jointGap + jointMounts.height, joint.boltDiameter / 2);
    const shared = await shares(corner, [bolt, body], await solidOf(corner, upright.id));
    const exact = Math.PI * (joint.boltDiameter / 2) ** 2 * jointMounts.height;
    expect(shared.volumeMm3).toBeGreaterThan(0.95 * exact);
    expect(shared.volumeMm3).toBeLessThanOrEqual(exact);
    expect(shared.unexplainedMm3).toBeLessThan(1e-3);
  });

  it('does not explain a housing inside the boss', async () => {
    const into = 5;
    const ring = await modelled((modeller) => {
      const reach = (radius: number, fromMm: number) =>
        rod(
          modeller,
          addScaled(centre, UP, fromMm),
          addScaled(centre, UP, jointGap + into),
          radius,
          CHORD_MM,
        );
      return reach(16, 0).subtract(reach(joint.boltDiameter / 2 + 1, -1));
    });
    const housing = named(corner, joint.id, 'lowerArm');
    const shared = await shares(corner, [housing, ring], await solidOf(corner, upright.id));
    const exact = Math.PI * (16 ** 2 - (joint.boltDiameter / 2 + 1) ** 2) * into;
    // The face of the boss explains a depth of both chord errors.
    expect(shared.unexplainedMm3).toBeGreaterThan(0.85 * exact);
    expect(shared.unexplainedMm3).toBeLessThan(exact);
  });

  it("explains the ball in its seat, but not the bolt in the housing's rim", async () => {
    const radius = joint.ballDiameter / 2;
    const housing = named(corner, joint.id, 'lowerArm');
    const seat = await modelled((modeller) =>
      rod(modeller, addScaled(centre, UP, -12), addScaled(centre, UP, 12), 23, CHORD_MM).subtract(
        modeller.Manifold.sphere(radius - CHORD_MM, 64).translate(centre),
      ),
    );
    const ball = await modelled((modeller) => modeller.Manifold.sphere(radius, 64).translate(centre));
    const seated = await shares(corner, [housing, seat], [bolt, ball]);
    expect(seated.volumeMm3).toBeGreaterThan(10);
    expect(seated.unexplainedMm3).toBeLessThan(1e-3);
    // A bolt that is tilted into the rim, outside the ball.
    const tilted: Vec3 = [Math.SQRT1_2, 0, Math.SQRT1_2];
    const bound = await shares(
      corner,
      [housing, seat],
      [bolt, await bar(centre, tilted, 0, 60, joint.boltDiameter / 2)],
    );
    expect(bound.unexplainedMm3).toBeGreaterThan(100);
  });
});

describe('intended contact on the studs and in the bore', () => {
  const fill = (corner: Corner, fromDepth: number, toDepth: number, radius: number, inner = 0) => {
    const outer = alongWheelAxis(corner, [fromDepth, toDepth], radius);
    return modelled((modeller) => {
      const rodOf = (r: number) =>
        rod(
          modeller,
          addScaled(outer.centre, outer.axis, -outer.halfLengthMm),
          addScaled(outer.centre, outer.axis, outer.halfLengthMm),
          r,
          CHORD_MM,
        );
      return inner > 0 ? rodOf(radius).subtract(rodOf(inner)) : rodOf(radius);
    });
  };

  it('explains the studs in hat and wheel, and clamped faces', async () => {
    const corner = benchCorner();
    const hub = await solidOf(corner, 'hub');
    for (const id of ['rotor', 'wheel']) {
      const shared = await shares(corner, hub, await solidOf(corner, id));
      expect(shared.volumeMm3, id).toBeGreaterThan(1000);
      expect(shared.unexplainedMm3, id).toBeLessThan(1);
    }
  });

  it("does not explain a pilot larger than the bore, or a flange in the hat's wall", async () => {
    const corner = benchCorner();
    const hub = entryOf(corner, 'hub');
    const wheel = entryOf(corner, 'wheel');
    const solid = await solidOf(corner, 'hub');
    const pilot = hub.pilotDiameter / 2;
    const tight = await fill(corner, 7, 10, 80, pilot - 2);
    const on = await shares(corner, solid, [named(corner, wheel.id, 'wheel'), tight]);
    expect(on.unexplainedMm3).toBeGreaterThan(0.7 * Math.PI * (pilot ** 2 - (pilot - 2) ** 2) * 3);
    const flange = hub.flangeDiameter / 2;
    const wall = await fill(corner, -hub.flangeThickness, -1, flange + 5, flange - 2);
    const around = await shares(corner, solid, [named(corner, 'rotor', 'wheel'), wall]);
    expect(around.unexplainedMm3).toBeGreaterThan(
      0.7 * Math.PI * (flange ** 2 - (flange - 2) ** 2) * (hub.flangeThickness - 1),
    );
  });

  it('explains the spigot against its bore within the chord errors only', async () => {
    const corner = benchCorner();
    const upright = entryOf(corner, 'upright');
    const hub = entryOf(corner, 'hub');
    const face = -hub.mountDepth;
    const at = async (radius: number) => {
      const spigot = await fill(corner, face - hub.spigotLength, face, radius);
      return shares(
        corner,
        [named(corner, 'hub.housing', 'upright'), spigot],
        await solidOf(corner, upright.id),
      );
    };
    expect((await at(hub.spigotDiameter / 2)).unexplainedMm3).toBe(0);
    expect((await at(upright.hubMount.bore / 2 + 1)).unexplainedMm3).toBeGreaterThan(1000);
  });

  it('explains the bead of the tyre, growth included', async () => {
    const corner = benchCorner();
    const shared = await shares(corner, await solidOf(corner, 'tyre'), await solidOf(corner, 'wheel'));
    expect(shared.volumeMm3).toBeGreaterThan(1000);
    expect(shared.unexplainedMm3).toBeLessThan(1);
  });
});

describe('intended contact of bolts', () => {
  it('explains shanks, heads and nuts in the parts that they hold', async () => {
    const corner = benchCorner();
    // The barrel does not reach the nuts beside it.
    entryOf(corner, 'hub').housingDiameter = 80;
    corner.parts.push(
      boltsOf({ joins: 'hubMount', headSide: 'inboard', nut: true }),
      boltsOf({ id: 'nuts', joins: 'wheel' }),
    );
    for (const [bolts, held] of [
      ['hubMount', 'hub.housing'],
      ['hubMount', 'upright'],
      ['nuts', 'hub'],
      ['nuts', 'wheel'],
    ]) {
      const shared = await shares(corner, await solidOf(corner, bolts), await solidOf(corner, held));
      expect(shared.unexplainedMm3, `${bolts} ${held}`).toBeLessThan(1);
    }
  });

  it('explains heads in their counterbores, but no wider volume', async () => {
    const unexplainedMm3 = async (counterboreDiameter: number) => {
      const corner = benchCorner();
      const sunk = { counterboreDiameter, counterboreDepth: 8, washers: false };
      corner.parts.push(boltsOf({ joins: 'hubMount', headSide: 'inboard', ...sunk }));
      const [bolts, upright] = [await solidOf(corner, 'hubMount'), await solidOf(corner, 'upright')];
      return (await shares(corner, bolts, upright)).unexplainedMm3;
    };
    expect(await unexplainedMm3(30)).toBeLessThan(1);
    expect(await unexplainedMm3(16)).toBeGreaterThan(1000);
  });

  it('does not explain heads inside the legs of a boxed upright', async () => {
    const corner = benchCorner();
    const upright = entryOf(corner, 'upright');
    upright.boxDepth = 40;
    corner.parts.push(boltsOf({ joins: 'hubMount', headSide: 'inboard' }));
    const shared = await shares(corner, await solidOf(corner, 'hubMount'), await solidOf(corner, 'upright'));
    expect(shared.unexplainedMm3).toBeGreaterThan(1000);
  });

  it("explains a caliper's own bolts in the upright, but not its ears beside their faces", async () => {
    const corner = benchCorner();
    const caliper = entryOf(corner, 'caliper');
    caliper.bracket = undefined;
    const [self, other] = [named(corner, 'caliper', 'upright'), named(corner, 'upright', 'upright')];
    const intended = intendedBetween(corner, self, other);
    expect(intended.map(({ what }) => what)).toEqual([
      ...Array(4).fill('ears on the upright'),
      ...Array(2).fill('bolts in their holes'),
    ]);
    const radii = intended.map(({ region }) => (region.shape === 'round' ? region.radiusMm : undefined));
    const { earDiameter, boltDiameter, boltLength, earThickness } = caliper.mount;
    expect(radii).toEqual([...Array(4).fill(earDiameter / 2), ...Array(2).fill(boltDiameter / 2)]);
    const lengths = intended.map(({ region }) =>
      region.shape === 'round' ? 2 * region.halfLengthMm : undefined,
    );
    expect(lengths.slice(0, 4)).toEqual([0, 0, 0, 0]);
    for (const length of lengths.slice(4)) expect(length).toBeCloseTo(boltLength - earThickness, 9);
  });

  it("does not explain a caliper's own bolts in the upright if a bracket holds them", () => {
    const corner = benchCorner();
    const pair = [named(corner, 'upright', 'upright'), named(corner, 'caliper', 'upright')] as const;
    const intended = intendedBetween(corner, ...pair);
    expect(intended.map(({ what }) => what)).toEqual(Array(2).fill('bracket on the upright'));
  });
});

describe('intended contact of links', () => {
  it('explains a damper rod in its body and the pieces of its spring', async () => {
    const corner = benchCorner();
    for (const spring of [entryOf(corner, 'damper').spring, undefined]) {
      entryOf(corner, 'damper').spring = spring;
      const halves = [await solidOf(corner, 'damper.body'), await solidOf(corner, 'damper.rod')] as const;
      const shared = await shares(corner, ...halves);
      expect(shared.volumeMm3).toBeGreaterThan(1000);
      expect(shared.unexplainedMm3).toBeLessThan(1);
    }
  });

  it("does not explain contact of the body with the rod's eye, where the damper has bottomed", async () => {
    const corner = benchCorner();
    entryOf(corner, 'damper').spring = undefined;
    const { chassisMount, armMount } = corner.suspension.damper!;
    const length = Math.hypot(...chassisMount.map((x, k) => x - armMount[k]));
    const along = chassisMount.map((x, k) => (x - armMount[k]) / length) as unknown as Vec3;
    const tooLong = await bar(armMount, along, 0, length - 5, entryOf(corner, 'damper').bodyDiameter / 2);
    const body: [SolidRef, WholeSolid] = [named(corner, 'damper.body', 'damperBody'), tooLong];
    const shared = await shares(corner, body, await solidOf(corner, 'damper.rod'));
    expect(shared.unexplainedMm3).toBeGreaterThan(1000);
  });

  it("explains a rod end's shank in the tube, but not its head", async () => {
    const corner = benchCorner();
    const joint = jointEntry(corner, 'tieRodOuter')!;
    const end = await solidOf(corner, joint.id);
    const shared = await shares(corner, end, await solidOf(corner, 'tieRod'));
    expect(shared.unexplainedMm3).toBeLessThan(1);
    entryOf(corner, 'tieRod').endGap = 8;
    const short = await shares(corner, end, await solidOf(corner, 'tieRod'));
    expect(short.unexplainedMm3).toBeGreaterThan(500);
  });

  it("treats an arm with its joints as one part, and the file's own parts on one carrier too", () => {
    const corner = benchCorner();
    const all = (a: SolidRef, b: SolidRef) =>
      intendedBetween(corner, a, b).some(({ region }) => region.shape === 'all');
    const lowerArm = named(corner, 'lowerArm', 'lowerArm');
    expect(all(lowerArm, named(corner, 'lowerUniball', 'lowerArm'))).toBe(true);
    expect(all(lowerArm, named(corner, 'lowerUniball.bolt', 'upright'))).toBe(false);
    expect(all(lowerArm, named(corner, 'upperUniball', 'upperArm'))).toBe(false);
    const rail = named(corner, 'lowerRail', 'chassis');
    expect(all(rail, { ...rail })).toBe(true);
    expect(all(rail, lowerArm)).toBe(false);
    expect(all(named(corner, 'lowerRail', 'upright'), named(corner, 'upright', 'upright'))).toBe(false);
  });

  it('has no intended contact between parts that are not joined', () => {
    const corner = benchCorner();
    const ids: [string, Carrier][] = [
      ['wheel', 'wheel'],
      ['caliper', 'upright'],
      ['lowerArm', 'lowerArm'],
      ['tieRod', 'tieRod'],
      ['damper.body', 'damperBody'],
    ];
    for (const [k, [a, onA]] of ids.entries())
      for (const [b, onB] of ids.slice(k + 1))
        expect(intendedBetween(corner, named(corner, a, onA), named(corner, b, onB)), `${a} ${b}`).toEqual(
          [],
        );
  });
});
