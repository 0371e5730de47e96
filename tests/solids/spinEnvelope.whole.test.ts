import { beforeAll, describe, expect, test } from 'vitest';
import type { Corner, Entry } from '../../src/design/schema.ts';
import { compose, fromAxes, invert, rotationAbout, translation } from '../../src/math/rigid.ts';
import { lerp, type Vec3 } from '../../src/math/vec.ts';
import { buildBox } from '../../src/parts/box/build.ts';
import { buildHub } from '../../src/parts/hub/build.ts';
import { buildTube } from '../../src/parts/tube/build.ts';
import { buildWheel } from '../../src/parts/wheel/build.ts';
import type { BuiltSolid } from '../../src/solids/build.ts';
import {
  loadModeller,
  type Modeller,
  matrix16,
  rod as roundBar,
  takeMesh,
} from '../../src/solids/modeller.ts';
import type { Mesh } from '../../src/solids/solid.ts';
import { spinEnvelope } from '../../src/solids/spinEnvelope.ts';
import { vehicleFromWheelAxis, wheelFromClock } from '../../src/solids/wheelFrame.ts';
import {
  atTurn,
  type Beside,
  besideY,
  cutByHalfPlane,
  pointsIn,
  type Segment,
  signedDistanceToCut,
} from '../oracles/halfPlane.ts';
import { areaMm2, signedVolumeMm3 } from '../oracles/meshChecks.ts';
import { between, cases, mulberry32 } from '../oracles/random.ts';
import { box, merged, moved, ring, rod, sphere, turnedInsideOut } from '../oracles/shapes.ts';
import { benchCorner, contextOf, entryOf, jitteredCorner } from './benchCorner.ts';
import { expectSound } from './solidChecks.ts';
import { cutAt, extent } from './turnedChecks.ts';

const SEED = 7423;
const TURNS = 720;
const STEP = (2 * Math.PI) / TURNS;
let modeller: Modeller;
beforeAll(async () => {
  modeller = await loadModeller();
});

/** A solid on the wheel with a mesh given in the wheel-axis frame. */
const onWheel = (corner: Corner, inWheelAxis: Mesh): BuiltSolid => ({
  id: 'part',
  kind: 'box',
  carrier: 'wheel',
  mesh: moved(inWheelAxis, vehicleFromWheelAxis(corner.suspension)),
  shown: undefined,
  chordErrorMm: 0,
  volumeMm3: signedVolumeMm3(inWheelAxis),
  attachments: [],
});

/** A place in vehicle coordinates, from its place in the wheel-axis frame at a turn. */
const standingAt = (corner: Corner, place: Beside, turnRad: number): [number, number, number] => {
  const [point] = pointsIn(
    { positions: Float64Array.from(atTurn(place, turnRad)), triangles: new Uint32Array() },
    vehicleFromWheelAxis(corner.suspension),
  );
  return [...point];
};

/** A stick-on weight inside the barrel, at a random angle. */
async function weight(corner: Corner, random: () => number, toleranceMm: number) {
  const entry: Entry<'box'> = {
    id: 'weight',
    kind: 'box',
    allowance: 0,
    carrier: 'wheel',
    centre: standingAt(corner, [between(random, 150, 200), between(random, -90, 20)], 6 * random()),
    size: [between(random, 10, 60), between(random, 8, 25), between(random, 3, 12)],
    rollDeg: between(random, -180, 180),
    pitchDeg: between(random, -180, 180),
    yawDeg: between(random, -180, 180),
  };
  return buildBox(entry, await contextOf(corner, toleranceMm))[0];
}

/** A valve stem, leaning inward and along the axis. */
async function stem(corner: Corner, random: () => number, toleranceMm: number) {
  const turn = 6 * random();
  const [radius, y] = [between(random, 160, 200), between(random, 40, 80)];
  const to: Beside = [radius - between(random, 5, 30), y + between(random, 10, 40)];
  const entry: Entry<'tube'> = {
    id: 'stem',
    kind: 'tube',
    allowance: 0,
    carrier: 'wheel',
    from: standingAt(corner, [radius, y], turn),
    to: standingAt(corner, to, turn + between(random, -0.2, 0.2)),
    diameter: between(random, 6, 14),
  };
  return buildTube(entry, await contextOf(corner, toleranceMm))[0];
}

/** Five spokes, dished and twisted, on a bored boss. */
function spokedDisc(corner: Corner, random: () => number): BuiltSolid {
  const twist = between(random, -0.5, 0.5);
  const dish = between(random, -0.3, 0.3);
  const spoke = modeller.Manifold.cube([26, 14, 150]).translate([-13, -7, 30]);
  const leaning = compose(
    rotationAbout([0, 0, 0], [1, 0, 0], dish),
    rotationAbout([0, 0, 0], [0, 0, 1], twist),
  );
  const boss = roundBar(modeller, [0, -20, 0], [0, 20, 0], 60, 0.05);
  const bore = roundBar(modeller, [0, -30, 0], [0, 30, 0], 29, 0.05);
  const spokes = [0, 1, 2, 3, 4].map((k) =>
    spoke.transform(matrix16(compose(wheelFromClock(72 * k), leaning))),
  );
  const disc = modeller.Manifold.union([boss, ...spokes]).subtract(bore);
  return onWheel(corner, takeMesh(disc, translation([0, 0, 0])));
}

/** Corners of a mesh and random points of its surface, beside the wheel axis. */
function surfacePlaces(mesh: Mesh, corner: Corner, count: number, random: () => number): Beside[] {
  const points = pointsIn(mesh, invert(vehicleFromWheelAxis(corner.suspension)));
  const inFaces = Array.from({ length: count }, (): Vec3 => {
    const t = 3 * Math.floor((random() * mesh.triangles.length) / 3);
    const [a, b, c] = [0, 1, 2].map((k) => points[mesh.triangles[t + k]]);
    return lerp(a, lerp(b, c, random()), Math.sqrt(random()));
  });
  return [...points, ...inFaces].map(besideY);
}

const along = ([a, b]: Segment, f: number): Beside => [a[0] + f * (b[0] - a[0]), a[1] + f * (b[1] - a[1])];

/** Expects every place of the part, at each of 720 spin angles, to be inside the envelope or outside by at most the error. */
function expectHoldsThePart(part: Mesh, envelope: Mesh, corner: Corner, errorMm: number, about: string) {
  const random = mulberry32(SEED);
  const places = surfacePlaces(part, corner, 60, random);
  const first = random();
  for (let k = 0; k < TURNS; k++) {
    const cut = cutAt(envelope, corner, first + k * STEP);
    const worst = places.reduce((most, place) => Math.max(most, signedDistanceToCut(place, cut)), -Infinity);
    expect(worst, `${about}, turn ${k}`).toBeLessThanOrEqual(errorMm);
  }
}

/**
 * Expects each place of the envelope's surface to be within the error of the part's cut at one of 720 spin angles; the best
 * three of these are divided 40 times more.
 */
function expectReachedByPart(part: Mesh, envelope: Mesh, corner: Corner, errorMm: number, about: string) {
  const wheelFromVehicle = invert(vehicleFromWheelAxis(corner.suspension));
  const fine = (2 * STEP) / 40;
  const cuts = Array.from({ length: TURNS }, (_, k) => cutByHalfPlane(part, wheelFromVehicle, k * STEP));
  const outline = cutAt(envelope, corner, 1e-3);
  const every = Math.ceil(outline.length / 60);
  const places = outline
    .filter((_, i) => i % every === 0)
    .flatMap((segment) => [along(segment, 0), along(segment, 0.5)]);
  expect(places.length, about).toBeGreaterThan(10);
  for (const place of places) {
    const gaps = cuts.map((cut, k) => ({ gap: signedDistanceToCut(place, cut), turn: k * STEP }));
    const nearest = gaps.sort((a, b) => a.gap - b.gap).slice(0, 3);
    const reached = nearest.flatMap(({ gap, turn }) => [
      gap,
      ...Array.from({ length: 40 }, (_, j) =>
        signedDistanceToCut(place, cutByHalfPlane(part, wheelFromVehicle, turn - STEP + (j + 0.5) * fine)),
      ),
    ]);
    expect(Math.min(...reached), `${about}: ${place}`).toBeLessThanOrEqual(errorMm + (place[0] * fine) / 2);
  }
}

describe('swept body of a part on the wheel', () => {
  test.each(['weight', 'stem', 'disc'] as const)(
    'contains %s at 720 spin angles, and each place of it is reached at one of them',
    async (name) => {
      const random = mulberry32(SEED + name.length);
      for (let i = 0; i < (name === 'weight' ? cases(2, 4) : cases(1, 2)); i++) {
        const corner = jitteredCorner(random);
        const toleranceMm = between(random, 0.05, 0.2);
        const makers = { weight, stem, disc: spokedDisc };
        const solid = await makers[name](corner, random, toleranceMm);
        const swept = spinEnvelope(solid, await contextOf(corner, toleranceMm));
        const about = `seed ${SEED + name.length}, ${name} ${i} to ${toleranceMm} mm`;
        expectSound(swept, about);
        expect(swept.shown, about).toBe(solid.mesh);
        const ownErrorMm = swept.chordErrorMm - solid.chordErrorMm;
        expect(ownErrorMm, about).toBeLessThanOrEqual(toleranceMm + 1e-3);
        expectHoldsThePart(solid.mesh, swept.mesh, corner, ownErrorMm, about);
        expectReachedByPart(solid.mesh, swept.mesh, corner, ownErrorMm, about);
      }
    },
  );

  test('is the ring from near face to far corners for a box square to the radius (Pappus)', async () => {
    const random = mulberry32(SEED + 10);
    for (let i = 0; i < 40; i++) {
      const corner = jitteredCorner(random);
      const [w, l, h] = [between(random, 2, 120), between(random, 2, 60), between(random, 2, 40)];
      const inner = between(random, 30, 200);
      const toleranceMm = between(random, 0.01, 0.3);
      const placed = compose(
        wheelFromClock(between(random, -180, 180)),
        translation([0, between(random, -100, 100), inner + h / 2]),
      );
      const swept = spinEnvelope(
        onWheel(corner, moved(box(w, l, h), placed)),
        await contextOf(corner, toleranceMm),
      );
      const outer = Math.hypot(inner + h, w / 2);
      const truth = Math.PI * (outer ** 2 - inner ** 2) * l;
      const about = `seed ${SEED + 10}, box ${i}: ${[w, l, h, inner, toleranceMm]}`;
      expectSound(swept, about);
      // Both circles are polygons of n sides, smaller by (2 pi / n)^2 / 6. Coordinates are rounded to Float32.
      const roundingMm3 = 1e-4 * areaMm2(swept.mesh);
      expect(swept.volumeMm3, about).toBeLessThanOrEqual(truth + roundingMm3);
      expect(swept.volumeMm3, about).toBeGreaterThanOrEqual(
        truth * (1 - (4 / 3) * (toleranceMm / outer)) - roundingMm3,
      );
      const { radius, y } = extent(swept.mesh, corner);
      expect(radius.least, about).toBeCloseTo(inner, 3);
      expect(radius.most, about).toBeCloseTo(outer, 3);
      expect(y.most - y.least, about).toBeCloseTo(l, 3);
    }
  });

  test('has the volume in closed form for a box turned about the radius (hyperbolas)', async () => {
    const random = mulberry32(SEED + 11);
    for (let i = 0; i < 20; i++) {
      const corner = benchCorner();
      const [w, l, h] = [between(random, 2, 80), between(random, 20, 100), between(random, 2, 20)];
      const inner = between(random, 20, 150);
      const yaw = between(random, 0.1, 1.4);
      const placed = compose(translation([0, 0, inner + h / 2]), rotationAbout([0, 0, 0], [0, 0, 1], yaw));
      const toleranceMm = 0.02;
      const swept = spinEnvelope(
        onWheel(corner, moved(box(w, l, h), placed)),
        await contextOf(corner, toleranceMm),
      );
      const corners = [
        [w, l],
        [w, -l],
        [-w, -l],
        [-w, l],
      ].map(([u, v]) => [
        (u * Math.cos(yaw) - v * Math.sin(yaw)) / 2,
        (u * Math.sin(yaw) + v * Math.cos(yaw)) / 2,
      ]);
      const sides = corners.map((p, k) => [p, corners[(k + 1) % 4]]);
      // Far corners less near face at one y, x from the plan of the box there: pi times the area of the ring.
      const ringArea = (y: number) => {
        const xs = sides.flatMap(([[x0, y0], [x1, y1]]) =>
          y0 < y === y1 < y ? [] : [x0 + ((y - y0) / (y1 - y0)) * (x1 - x0)],
        );
        const [from, to] = [Math.min(...xs), Math.max(...xs)];
        const near = Math.max(0, from, -to);
        return Math.PI * ((inner + h) ** 2 + Math.max(to, -from) ** 2 - inner ** 2 - near ** 2);
      };
      // Quadratic in y between these, so that Simpson's rule is exact; sampled just inside each piece. Two sides change
      // places as the further one, or one passes the axis, where their x add up to 0.
      const lines = sides.map(([[x0, y0], [x1, y1]]) => {
        const slope = (x1 - x0) / (y1 - y0);
        return { slope, at0: x0 - slope * y0 };
      });
      const changes = lines.flatMap((p) => lines.map((q) => -(p.at0 + q.at0) / (p.slope + q.slope)));
      const half = Math.max(...corners.map(([, y]) => y));
      const breaks = [...corners.map(([, y]) => y), ...changes.filter((y) => Math.abs(y) < half)].sort(
        (a, b) => a - b,
      );
      const truth = breaks.slice(1).reduce((sum, to, k) => {
        const from = breaks[k];
        const at = (f: number) => ringArea(from + f * (to - from));
        return to - from < 1e-9 ? sum : sum + ((to - from) * (at(1e-9) + 4 * at(0.5) + at(1 - 1e-9))) / 6;
      }, 0);
      const about = `seed ${SEED + 11}, box ${i}: ${[w, l, h, inner, yaw]}`;
      expectSound(swept, about);
      expect(Math.abs(swept.volumeMm3 - truth), about).toBeLessThanOrEqual(
        swept.chordErrorMm * areaMm2(swept.mesh),
      );
      const { least } = extent(swept.mesh, corner).radius;
      expect(Math.abs(least - inner), about).toBeLessThanOrEqual(swept.chordErrorMm);
    }
  });

  test('is a torus for a ball: 2 pi^2 times its distance and the square of its radius (Pappus)', async () => {
    const corner = benchCorner();
    const [distance, radius] = [120, 15];
    const solid = onWheel(corner, moved(sphere(radius, 128), translation([0, -30, distance])));
    const swept = spinEnvelope(solid, await contextOf(corner, 0.02));
    const truth = 2 * Math.PI ** 2 * distance * radius ** 2;
    const roundMm = radius * (1 - Math.cos(Math.PI / 128) ** 2);
    expectSound(swept, 'ball');
    expect(Math.abs(swept.volumeMm3 - truth)).toBeLessThanOrEqual(
      (swept.chordErrorMm + roundMm) * areaMm2(swept.mesh),
    );
  });

  test('keeps the hole of a ring, the centre of a disc, and a hollow that no surface passes through', async () => {
    const corner = benchCorner();
    const context = await contextOf(corner, 0.05);
    const wheelFromZ = fromAxes([0, 0, 1], [1, 0, 0], [0, 1, 0], [0, -12, 0]);
    const plain = ring(
      [
        [60, -5],
        [80, -5],
        [80, 5],
        [60, 5],
      ],
      200,
    );
    const cases: [string, Mesh, number][] = [
      ['ring', plain, Math.PI * (80 ** 2 - 60 ** 2) * 10],
      ['disc', rod(80, -5, 5, 200), Math.PI * 80 ** 2 * 10],
      [
        'hollow ball',
        merged(sphere(50, 120), turnedInsideOut(sphere(40, 120))),
        (4 / 3) * Math.PI * (50 ** 3 - 40 ** 3),
      ],
      ['ring with a hollow', merged(plain, turnedInsideOut(ringHollow())), Math.PI * (2800 * 10 - 600 * 4)],
    ];
    for (const [name, mesh, truth] of cases) {
      const swept = spinEnvelope(onWheel(corner, moved(mesh, wheelFromZ)), context);
      expectSound(swept, name);
      // The polygons that are swept are no further than this inside their circles.
      const roundMm = Math.max(80 * (1 - Math.cos(Math.PI / 200)), 50 * (1 - Math.cos(Math.PI / 120) ** 2));
      expect(Math.abs(swept.volumeMm3 - truth), name).toBeLessThanOrEqual(
        (swept.chordErrorMm + roundMm) * areaMm2(swept.mesh),
      );
      const { radius } = extent(swept.mesh, corner);
      if (name.startsWith('ring')) expect(Math.abs(radius.least - 60), name).toBeLessThan(0.05);
      else expect(radius.least, name).toBeLessThan(1e-6);
    }
  });

  test('equals the checked body for the shown wheels and hubs', async () => {
    const random = mulberry32(SEED + 12);
    for (const spokes of [0, 5, 7]) {
      const corner = benchCorner();
      const context = await contextOf(corner, 0.2);
      const wheel = { ...entryOf(corner, 'wheel'), spokes, spokeWidth: between(random, 20, 60) };
      const [hub] = buildHub(entryOf(corner, 'hub'), context);
      for (const solid of [hub, ...buildWheel(wheel, context)]) {
        const about = `${solid.id}, ${spokes} spokes of ${wheel.spokeWidth}`;
        const swept = spinEnvelope({ ...solid, mesh: solid.shown!, shown: undefined }, context);
        const errorMm = swept.chordErrorMm + solid.chordErrorMm;
        for (const [one, other] of [
          [swept.mesh, solid.mesh],
          [solid.mesh, swept.mesh],
        ]) {
          const cut = cutAt(other, corner, between(random, 0, 6));
          for (const place of surfacePlaces(one, corner, 100, random))
            expect(signedDistanceToCut(place, cut), about).toBeLessThanOrEqual(errorMm);
        }
      }
    }
  });
});

/** A square tunnel inside the plain ring. */
function ringHollow(): Mesh {
  return ring(
    [
      [73, -2],
      [77, -2],
      [77, 2],
      [73, 2],
    ],
    200,
  );
}
