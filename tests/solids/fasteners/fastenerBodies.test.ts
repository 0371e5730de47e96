import { describe, expect, test } from 'vitest';
import { prepareBody } from '../../../src/clearance/body.ts';
import { measure } from '../../../src/clearance/query.ts';
import type { Corner, Entry } from '../../../src/design/schema.ts';
import {
  applyPoint,
  compose,
  invert,
  type Rigid,
  rotationAbout,
  translation,
} from '../../../src/math/rigid.ts';
import type { Vec3 } from '../../../src/math/vec.ts';
import { type FastenerBody, fastenerBodies } from '../../../src/solids/fasteners/fastenerBodies.ts';
import type { Mesh } from '../../../src/solids/solid.ts';
import { axialStack, vehicleFromWheelAxis } from '../../../src/solids/wheelFrame.ts';
import { closedOutwardProblems } from '../../oracles/meshChecks.ts';
import { between, mulberry32 } from '../../oracles/random.ts';
import { box, moved } from '../../oracles/shapes.ts';
import { benchCorner, boltsOf, entryOf, jitteredCorner } from '../benchCorner.ts';

const SEED = 7421;
const TOLERANCE_MM = 0.02;
/** Across the corners of an M12 head: 18 mm over cos 30 degrees. */
const CORNERS_MM = 36 / Math.sqrt(3);

/** The bench corner with one set of M12 bolts, its first hole straight above the wheel axis. */
function withBolts(given: Partial<Entry<'bolts'>>, joins: Entry<'bolts'>['joins'] = 'hubMount'): Corner {
  const corner = benchCorner();
  corner.parts.push(boltsOf({ joins, ...given }));
  return corner;
}

const bodiesOf = (corner: Corner) => fastenerBodies(corner, TOLERANCE_MM);
const only = (
  bodies: readonly FastenerBody[],
  stage: FastenerBody['stage'],
  end: FastenerBody['end'],
  index = 0,
) => {
  const found = bodies.filter((body) => body.stage === stage && body.end === end && body.index === index);
  expect(found).toHaveLength(1);
  return found[0];
};

/** Corners of a mesh in the wheel-axis frame, y from the hub's wheel-mounting face. */
function places(corner: Corner, { positions }: Mesh): Vec3[] {
  const wheelFromVehicle = invert(vehicleFromWheelAxis(corner.suspension));
  const { hubFaceY } = axialStack(corner);
  return Array.from({ length: positions.length / 3 }, (_, v) => {
    const [x, y, z] = applyPoint(wheelFromVehicle, [
      positions[3 * v],
      positions[3 * v + 1],
      positions[3 * v + 2],
    ]);
    return [x, y - hubFaceY, z];
  });
}
const span = (corner: Corner, mesh: Mesh): [number, number] => {
  const ys = places(corner, mesh).map(([, y]) => y);
  return [Math.min(...ys), Math.max(...ys)];
};

function clearanceMm(a: FastenerBody, b: { mesh: Mesh; chordErrorMm: number }, aFromB: Rigid): number {
  const found = measure(
    prepareBody(a.mesh, { chordErrorMm: a.chordErrorMm }),
    prepareBody(b.mesh, { chordErrorMm: b.chordErrorMm }),
    aFromB,
  );
  if (found.kind === 'unknown' || found.kind === 'beyond') throw new Error(found.kind);
  return found.distanceMm;
}

describe('bodies of fasteners', () => {
  test('are closed and outward: one seated, one way out for each end, one tool for each turned end, for random sets', async () => {
    const random = mulberry32(SEED);
    for (let i = 0; i < 8; i++) {
      const corner = jitteredCorner(random);
      const [nut, tool] = [random() < 0.5, (['socket', 'boxWrench', 'openWrench'] as const)[i % 3]];
      const toolOn = (['head', 'nut', 'both'] as const)[Math.floor(3 * random())];
      const given = {
        tool,
        toolOn,
        head: random() < 0.5 ? ('hex' as const) : ('socketHead' as const),
        headSide: random() < 0.5 ? ('inboard' as const) : ('outboard' as const),
        washers: random() < 0.5,
        handleDeg: tool === 'socket' ? undefined : between(random, -180, 180),
        swingDeg: tool === 'socket' ? undefined : between(random, 5, 180),
      };
      corner.parts.push(boltsOf({ joins: 'hubMount', nut, ...given }), boltsOf({ joins: 'wheel', ...given }));
      const bodies = await fastenerBodies(corner, 0.1);
      const about = `seed ${SEED}, corner ${i}: ${JSON.stringify(given)}`;
      const ends = nut ? 2 : 1;
      const tools = nut && toolOn === 'both' ? 2 : 1;
      expect(bodies.length, about).toBe(4 * (1 + ends + tools) + 5 * 3);
      for (const { mesh, label, chordErrorMm } of bodies) {
        expect(closedOutwardProblems(mesh), `${about} ${label}`).toEqual([]);
        expect(chordErrorMm, about).toBeLessThanOrEqual(0.101);
      }
      expect(new Set(bodies.map(({ label }) => label)).size, about).toBe(bodies.length);
    }
  });

  test('give a bolt a way out as long as its clamped length, on the head side', async () => {
    for (const headSide of ['inboard', 'outboard'] as const) {
      const corner = withBolts({ headSide, nut: true, length: 60 });
      const bodies = await bodiesOf(corner);
      const hub = entryOf(corner, 'hub');
      const [outboard, inboard] = [-hub.mountDepth + 12, -hub.mountDepth - 12];
      const [face, far, way] = headSide === 'inboard' ? [inboard, outboard, -1] : [outboard, inboard, 1];
      const ends = (a: number, b: number) => [Math.min(a, b), Math.max(a, b)];
      const expectSpan = (body: FastenerBody, a: number, b: number) =>
        span(corner, body.mesh).forEach((y, k) => {
          expect(y, body.label).toBeCloseTo(ends(a, b)[k], 4);
        });
      // At most: washer 2.7, head 7.79, nut 10.8 mm; held over 24 mm. With a washer of 2.3 mm, the least, 60 mm under the
      // head is 57.7 mm below the face.
      expectSpan(only(bodies, 'seated', 'head'), face + way * 10.49, face - way * 57.7);
      expectSpan(only(bodies, 'wayOut', 'head'), face + way * (10.49 + 57.7), face - way * 57.7);
      // The nut is 57.7 - 24 - 2.7 mm from the end of the thread, and 10.8 mm high.
      expectSpan(only(bodies, 'wayOut', 'nut'), far, far - way * (2.7 + 10.8 + 31));
    }
  });

  test('free a nut on a stud at the end of the stud', async () => {
    const corner = withBolts({ washers: false }, 'wheel');
    const [least, most] = span(corner, only(await bodiesOf(corner), 'wayOut', 'nut').mesh);
    const face = axialStack(corner).wheelFaceDepth + 12;
    expect(least).toBeCloseTo(face, 4);
    // Studs of 45 mm: the nut's seat goes to their end.
    expect(most).toBeCloseTo(45 + 10.8, 4);
  });

  test('give the exact clearance of a socket beside a wall', async () => {
    const random = mulberry32(SEED + 1);
    for (const toolDiameter of [24, 27, 30]) {
      const corner = withBolts({ toolDiameter, driveDiameter: 20 });
      const tool = only(await bodiesOf(corner), 'tool', 'head');
      const wallAt = between(random, 16, 30);
      const { hubFaceY } = axialStack(corner);
      // Square to x of the wheel-axis frame, its near face `wallAt` from the bolt straight above the axis.
      const vehicleFromWall = compose(
        vehicleFromWheelAxis(corner.suspension),
        translation([wallAt + 5, hubFaceY - 130, 55]),
      );
      const wall = { mesh: moved(box(10, 200, 100), vehicleFromWall), chordErrorMm: 0 };
      const left = clearanceMm(tool, wall, translation([0, 0, 0]));
      expect(Math.abs(left - (wallAt - toolDiameter / 2)), `seed ${SEED + 1}, ${toolDiameter}`).toBeLessThan(
        tool.chordErrorMm + 1e-6,
      );
    }
  });

  test('lift a socket over the head: its drive ends further out by the head height', async () => {
    const corner = withBolts({ toolLength: 40, driveLength: 100 });
    const [least, most] = span(corner, only(await bodiesOf(corner), 'tool', 'head').mesh);
    const face = -75 - 12;
    expect(most).toBeCloseTo(face - 2.7, 4);
    expect(least).toBeCloseTo(face - 2.7 - 7.79 - 40 - 100, 4);
  });

  test.each(['socket', 'boxWrench', 'openWrench'] as const)(
    'lift the tool over a nut with thread beyond it: %s',
    async (tool) => {
      const round = tool === 'socket' ? { driveLength: 100 } : { toolThickness: 12 };
      const given = { tool, toolOn: 'nut', toolLength: 60, ...round } as const;
      const along = tool === 'socket' ? 160 : 12;
      const corner = withBolts({ nut: true, headSide: 'outboard', length: 60, ...given });
      const nut = span(corner, only(await bodiesOf(corner), 'tool', 'nut').mesh);
      // Held over 24 mm, with a washer of 2.3 mm under the head: the tip is 33.7 mm behind the plate. An open wrench
      // is put on from the side, on a washer of 2.7 mm.
      expect(nut[0]).toBeCloseTo(-75 - 12 - (tool === 'openWrench' ? 2.7 : 33.7) - along, 4);
      expect(nut[1]).toBeCloseTo(-75 - 12 - 2.7, 4);
      const onStuds = withBolts(given, 'wheel');
      const stud = span(onStuds, only(await bodiesOf(onStuds), 'tool', 'nut').mesh);
      const face = axialStack(onStuds).wheelFaceDepth + 12;
      expect(stud[1]).toBeCloseTo((tool === 'openWrench' ? face + 2.7 : 45) + along, 4);
    },
  );

  test('of two bolts on one circle meet at an angle of 2 asin(d / D)', async () => {
    const corner = withBolts({ washers: false });
    const bolt = only(await bodiesOf(corner), 'seated', 'head');
    const [d, circle] = [CORNERS_MM, 110];
    const meet = 2 * Math.asin(d / circle);
    const vehicleFromWheel = vehicleFromWheelAxis(corner.suspension);
    const turnedBy = (rad: number) =>
      compose(compose(vehicleFromWheel, rotationAbout([0, 0, 0], [0, 1, 0], rad)), invert(vehicleFromWheel));
    for (const more of [0.002, 0.02, 0.2]) {
      const gap = circle * Math.sin((meet + more) / 2) - d;
      for (const sense of [1, -1])
        expect(clearanceMm(bolt, bolt, turnedBy(sense * (meet + more)))).toBeGreaterThanOrEqual(gap - 1e-4);
      expect(clearanceMm(bolt, bolt, turnedBy(meet + more))).toBeLessThanOrEqual(gap + 2 * bolt.chordErrorMm);
    }
    // Nearer by more than both chord errors they run into each other.
    expect(clearanceMm(bolt, bolt, turnedBy(meet - 4 * (bolt.chordErrorMm / circle)))).toBeLessThanOrEqual(0);
  });

  test.each(['inboard', 'outboard'] as const)(
    'of a wrench reach to the end of its handle, toward larger clocking, through the whole swing; head %s',
    async (headSide) => {
      const corner = withBolts({
        headSide,
        tool: 'boxWrench',
        toolLength: 200,
        handleWidth: 16,
        handleDeg: 50,
        swingDeg: 40,
      });
      const { mesh } = only(await bodiesOf(corner), 'tool', 'head');
      // About the bolt straight above: 0 straight up, positive toward the rear, which is minus x.
      const polar = places(corner, mesh).map(([x, , z]) => ({
        radius: Math.hypot(x, z - 55),
        deg: (Math.atan2(-x, z - 55) * 180) / Math.PI,
      }));
      const reach = Math.hypot(200, 8);
      expect(Math.max(...polar.map(({ radius }) => radius))).toBeCloseTo(reach, 3);
      const far = polar.filter(({ radius }) => radius > 190).map(({ deg }) => deg);
      const corners = (Math.atan2(8, 200) * 180) / Math.PI;
      expect(Math.min(...far)).toBeCloseTo(50 - 20 - corners, 3);
      expect(Math.max(...far)).toBeCloseTo(50 + 20 + corners, 3);
    },
  );

  test('may touch the parts that the bolts hold only within the slab of that bolt', async () => {
    const bodies = await bodiesOf(withBolts({ label: 'Hub bolts' }));
    for (const { zonesAgainst } of bodies) {
      expect(zonesAgainst.map(({ solidId }) => solidId)).toEqual(['hub.housing', 'upright']);
      for (const { zones } of zonesAgainst) expect(zones).toHaveLength(1);
    }
    const centres = bodies
      .filter(({ stage }) => stage === 'tool')
      .map(({ zonesAgainst: [{ zones }] }) => zones[0].centre);
    expect(new Set(centres.map(String)).size).toBe(4);
    expect(only(bodies, 'tool', 'head', 2).label).toBe('Hub bolts 3, socket on its head');
    expect(bodies.every(({ fitted, carrier }) => fitted === 1 && carrier === 'upright')).toBe(true);
  });

  test('of a tool without a washer may touch everything under its foot', async () => {
    const corner = withBolts({ tool: 'openWrench', toolDiameter: 70, washers: false });
    const bodies = await bodiesOf(corner);
    const radius = (body: FastenerBody) => body.zonesAgainst[0].zones[0].radiusMm;
    expect(radius(only(bodies, 'tool', 'head'))).toBe(36);
    expect(radius(only(bodies, 'wayOut', 'head'))).toBeCloseTo(CORNERS_MM / 2 + 10, 9);
  });

  test('are rejected with the id of the set if dimensions contradict', async () => {
    const corner = withBolts({ id: 'hubBolts', length: 2 });
    await expect(bodiesOf(corner)).rejects.toThrow(/^hubBolts: length 2\.00 mm does not reach/);
    await expect(fastenerBodies(withBolts({}), 0)).rejects.toThrow(/more than 0 mm/);
  });
});
