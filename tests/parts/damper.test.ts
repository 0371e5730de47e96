import { describe, expect, test } from 'vitest';
import type { Corner, Entry } from '../../src/design/schema.ts';
import { applyPoint } from '../../src/math/rigid.ts';
import { addScaled, distance, dot, normalize, sub, type Vec3 } from '../../src/math/vec.ts';
import { prepareMechanism, solvePose } from '../../src/mechanism/mechanism.ts';
import { buildDamper } from '../../src/parts/damper/build.ts';
import type { BuiltSolid } from '../../src/solids/build.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import type { Piece } from '../oracles/roundPieces.ts';
import { benchCorner, contextOf, entryOf, jitteredCorner } from '../solids/benchCorner.ts';
import { expectHonest, expectSound } from '../solids/solidChecks.ts';

const SEED = 4108;

function randomDamper(random: () => number, entry: Entry<'damper'>): Entry<'damper'> {
  const bodyDiameter = between(random, 35, 60);
  const bodyLength = between(random, 200, 290);
  return {
    ...entry,
    bodyDiameter,
    bodyLength,
    rodDiameter: between(random, 10, 22),
    bodyEnd: random() < 0.5 ? 'chassis' : 'arm',
    eyeDiameter: between(random, 25, 45),
    eyeWidth: between(random, 15, 40),
    eyeDirection: [between(random, 0.5, 1), between(random, -0.2, 0.2), between(random, -0.2, 0.2)],
    spring: { outerDiameter: between(random, 65, 100), seat: between(random, 60, bodyLength) },
  };
}

/** Lengths between the mounts over travel, straight ahead. */
function lengths(corner: Corner): { shortest: number; longest: number } {
  const mechanism = prepareMechanism(corner.suspension);
  const { bump, droop } = corner.suspension.travel;
  const { chassisMount, armMount, on } = corner.suspension.damper!;
  const all = Array.from({ length: 41 }, (_, k) => {
    const pose = solvePose(mechanism, -droop + ((bump + droop) * k) / 40, 0);
    if (pose.kind !== 'solved') throw new Error('the bench corner reaches all of its travel');
    return distance(chassisMount, applyPoint(pose.carriers[on], armMount));
  });
  return { shortest: Math.min(...all), longest: Math.max(...all) };
}

/** Extent of a mesh along the damper from a mount, within a distance of the damper's axis and beyond another. */
function reachMm(solid: BuiltSolid, mount: Vec3, far: Vec3, from: number, to: number): [number, number] {
  const along = normalize(sub(far, mount));
  const [found, p] = [[] as number[], solid.mesh.positions];
  for (let i = 0; i < p.length; i += 3) {
    const offset = sub([p[i], p[i + 1], p[i + 2]], mount);
    const place = dot(offset, along);
    const off = Math.hypot(...addScaled(offset, along, -place));
    if (off > from && off < to) found.push(place);
  }
  return [Math.min(...found), Math.max(...found)];
}

describe('a damper', () => {
  test('is closed, within its error, carried by its two ends, with eyes centred on the mounts, for random dampers', async () => {
    const random = mulberry32(SEED);
    for (let i = 0; i < 16; i++) {
      const corner = jitteredCorner(random);
      const entry = randomDamper(random, entryOf(corner, 'damper'));
      const chordToleranceMm = between(random, 0.05, 0.3);
      const [body, rod] = buildDamper(entry, await contextOf(corner, chordToleranceMm));
      const about = `seed ${SEED}, damper ${i}: ${JSON.stringify(entry)}`;
      expectSound(body, about);
      expectSound(rod, about);
      expect([body.id, body.kind, body.carrier]).toEqual(['damper.body', 'damperBody', 'damperBody']);
      expect([rod.id, rod.kind, rod.carrier]).toEqual(['damper.rod', 'damperRod', 'damperRod']);

      const { chassisMount, armMount } = corner.suspension.damper!;
      const [bodyMount, rodMount] =
        entry.bodyEnd === 'chassis' ? [chassisMount, armMount] : [armMount, chassisMount];
      const along = normalize(sub(rodMount, bodyMount));
      const eyeAxis = normalize(entry.eyeDirection);
      const eye = (mount: Vec3): Piece => ({
        from: addScaled(mount, eyeAxis, -entry.eyeWidth / 2),
        to: addScaled(mount, eyeAxis, entry.eyeWidth / 2),
        radius: entry.eyeDiameter / 2,
      });
      const start = entry.eyeDiameter / 4;
      const { shortest, longest } = lengths(corner);
      const closed = Math.max(shortest, entry.bodyLength);
      const spring = entry.spring!;
      const compressed = closed - spring.seat;

      // Only the body, whose dimensions are all given.
      const bare = { ...entry, spring: undefined };
      const [bareBody, bareRod] = buildDamper(bare, await contextOf(corner, chordToleranceMm));
      const barrel: Piece = {
        from: addScaled(bodyMount, along, start),
        to: addScaled(bodyMount, along, entry.bodyLength),
        radius: entry.bodyDiameter / 2,
      };
      expectHonest(bareBody, [eye(bodyMount), barrel], { chordToleranceMm, random, about });

      // The rod is in the body at the longest, and does not reach past its mount at the shortest.
      const rodOnly = reachMm(bareRod, rodMount, bodyMount, 0, entry.rodDiameter / 2 + 1e-3);
      expect(rodOnly[1], about).toBeGreaterThan(longest - entry.bodyLength);
      expect(rodOnly[1], about).toBeLessThanOrEqual(closed + 1e-3);

      // The spring: at every length of the damper its two pieces together run from the seat to the rod's mount.
      const around = [Math.max(entry.bodyDiameter, entry.eyeDiameter, entry.eyeWidth * 1.5) / 2, 60];
      const outer = spring.outerDiameter / 2;
      if (outer * 0.999 <= around[0]) continue;
      const onRod = reachMm(rod, rodMount, bodyMount, outer * 0.999, outer * 1.001);
      expect(onRod[0], about).toBeCloseTo(start, 2);
      const onBody =
        compressed > 0.01 ? reachMm(body, bodyMount, rodMount, outer * 0.999, outer * 1.001) : undefined;
      if (onBody !== undefined) {
        expect(onBody[0], about).toBeCloseTo(spring.seat, 2);
        expect(onBody[1], about).toBeLessThanOrEqual(closed + 1e-2);
      }
      const bodyPieceEnd = onBody?.[1] ?? spring.seat;
      expect(bodyPieceEnd, about).toBeGreaterThanOrEqual(longest - onRod[1] - 1e-3);
      // Past the seat at the shortest only where the spring is compressed to less than half of its longest.
      if (compressed > 1.05 * (longest - closed) + 1) {
        expect(closed - onRod[1], about).toBeGreaterThanOrEqual(spring.seat - 0.5);
      }

      const [mountOfBody, mountOfRod] =
        entry.bodyEnd === 'chassis' ? ['damperChassis', 'damperArm'] : ['damperArm', 'damperChassis'];
      expect(
        [body, rod].flatMap(({ attachments }) => attachments),
        about,
      ).toEqual([
        { name: mountOfBody, at: bodyMount },
        { name: mountOfRod, at: rodMount },
      ]);
    }
  });

  test('rejects lengths that contradict each other', async () => {
    const corner = benchCorner();
    const entry = { ...entryOf(corner, 'damper'), spring: undefined };
    const context = await contextOf(corner);
    const buildingWith = (change: Partial<Entry<'damper'>>) => () =>
      buildDamper({ ...entry, ...change }, context);
    expect(buildingWith({})).not.toThrow();
    expect(buildingWith({ bodyLength: 500 })).toThrow(
      /bodyLength 500 mm is longer than the damper: .* 452\.\d mm apart/,
    );
    expect(buildingWith({ bodyLength: 30 })).toThrow(/bodyLength 30 mm is too short/);
    expect(buildingWith({ bodyLength: 15 })).toThrow(/ends inside an eye/);
    expect(buildingWith({ rodDiameter: 46 })).toThrow(/rodDiameter 46 mm does not slide/);
    expect(buildingWith({ spring: { outerDiameter: 70, seat: 260 } })).toThrow(
      /spring.seat 260 mm is beyond/,
    );
    const without = {
      ...context,
      corner: { ...corner, suspension: { ...corner.suspension, damper: undefined } },
    };
    expect(() => buildDamper(entry, without)).toThrow(/needs its mounts/);
  });
});
