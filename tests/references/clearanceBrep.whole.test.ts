/**
 * Our meshes against the exact shapes: npm replicad 1.1.0 with replicad-opencascadejs 1.1.0, whose BRepExtrema
 * measures between exact cylinders, tori and bores. Random poses; every result must be correct within its stated
 * error. For solids that meet or contain each other, that kernel returns 0 or rounding.
 */
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { makeCylinder, measureDistanceBetween, type Shape3D, setOC, sketchCircle } from 'replicad';
import opencascade from 'replicad-opencascadejs';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Body, prepareBody } from '../../src/clearance/body.ts';
import { measure } from '../../src/clearance/query.ts';
import { identity, rotationAbout } from '../../src/math/rigid.ts';
import { normalize, type Vec3 } from '../../src/math/vec.ts';
import {
  chordErrorMm,
  loadModeller,
  type Modeller,
  rod,
  segmentsFor,
  takeMesh,
} from '../../src/solids/modeller.ts';
import { outline, revolve, ringProfile } from '../../src/solids/revolved.ts';
import { radToDeg } from '../../src/units/angle.ts';
import { between, mulberry32 } from '../oracles/random.ts';

const ORIGIN: Vec3 = [0, 0, 0];
const CHORD_MM = 0.05;
/** The modeller outputs Float32 coordinates: 2^-24 of 600 mm, in three axes. */
const FLOAT32_MM = 600 * 2 ** -24 * Math.sqrt(3);

let modeller: Modeller;
beforeAll(async () => {
  const wasm = createRequire(import.meta.url).resolve('replicad-opencascadejs/wasm');
  setOC(await opencascade({ locateFile: (name: string) => join(dirname(wasm), name) }));
  modeller = await loadModeller();
});

/** A shape in both forms: the modeller's mesh and the kernel's exact solid, axis along y. */
interface Twin {
  body: Body;
  exact: Shape3D;
}

function twin(solid: Parameters<typeof takeMesh>[0], errorMm: number, exact: Shape3D): Twin {
  return {
    body: prepareBody(takeMesh(solid, identity()), { chordErrorMm: errorMm + FLOAT32_MM }),
    exact,
  };
}

/** Chord error of a circle with the number of segments for the tolerance. */
const circleErrorMm = (radius: number, toleranceMm = CHORD_MM): number =>
  chordErrorMm(radius, segmentsFor(radius, toleranceMm));

const alongY = (radius: number, half: number): Shape3D =>
  makeCylinder(radius, 2 * half, [0, -half, 0], [0, 1, 0]);

const roundRod = (radius: number, half: number): Twin =>
  twin(
    rod(modeller, [0, -half, 0], [0, half, 0], radius, CHORD_MM),
    circleErrorMm(radius),
    alongY(radius, half),
  );

function bore(radius: number, outerRadius: number, half: number): Twin {
  const segments = segmentsFor(outerRadius, CHORD_MM);
  return twin(
    revolve(ringProfile(modeller, radius, outerRadius, -half, half), segments),
    chordErrorMm(outerRadius, segments),
    alongY(outerRadius, half).cut(alongY(radius, 2 * half)) as Shape3D,
  );
}

function tyre(radius: number, tube: number): Twin {
  const sides = segmentsFor(tube, CHORD_MM / 2);
  const points = Array.from({ length: sides }, (_, k) => {
    const angle = (2 * Math.PI * k) / sides;
    return [radius + tube * Math.cos(angle), tube * Math.sin(angle)] as const;
  });
  const segments = segmentsFor(radius + tube, CHORD_MM / 2);
  return twin(
    revolve(outline(modeller, points), segments),
    chordErrorMm(tube, sides) + chordErrorMm(radius + tube, segments),
    sketchCircle(tube, { plane: 'XY', origin: [radius, 0, 0] }).revolve([0, 1, 0], { origin: [0, 0, 0] }),
  );
}

/** Measures in both forms, after a rotation about an axis through the origin and a translation, and compares. */
function compare(
  a: Twin,
  b: Twin,
  axis: Vec3,
  angleRad: number,
  shift: Vec3,
  where: string,
): 'apart' | 'met' {
  const aFromB = rotationAbout(ORIGIN, axis, angleRad);
  shift.forEach((x, k) => {
    aFromB[4 * k + 3] = x;
  });
  const placed = b.exact
    .clone()
    .rotate(radToDeg(angleRad), [0, 0, 0], [...axis])
    .translate(...shift);
  const exact = measureDistanceBetween(a.exact, placed);
  const found = measure(a.body, b.body, aFromB);
  if (!('errorMm' in found)) throw new Error(`${where}: ${found.kind}`);
  const message = `${where}: ${found.kind} ${found.distanceMm} ± ${found.errorMm}, exact ${exact}`;
  if (exact < 1e-9) {
    expect(found.distanceMm, message).toBeLessThanOrEqual(found.errorMm);
    return 'met';
  }
  expect(found.errorMm, message).toBeLessThan(2.2 * CHORD_MM);
  expect(Math.abs(found.distanceMm - exact), message).toBeLessThanOrEqual(found.errorMm);
  return 'apart';
}

/**
 * Random rotations of at most `turnRad` and translations of at most `shiftMm`. Returns the number of separated poses.
 */
function randomPoses(a: Twin, b: Twin, seeds: number, turnRad: number, shiftMm: Vec3): number {
  let apart = 0;
  for (let seed = 1; seed <= seeds; seed++) {
    const random = mulberry32(seed);
    const some = (): number => between(random, -1, 1);
    const axis = normalize([some(), some(), some() + 1e-3]);
    const shift: Vec3 = [shiftMm[0] * some(), shiftMm[1] * some(), shiftMm[2] * some()];
    if (compare(a, b, axis, turnRad * some(), shift, `seed ${seed}`) === 'apart') apart++;
  }
  return apart;
}

describe('against exact solids', () => {
  it('a tyre as a torus, and a rod', () => {
    expect(randomPoses(tyre(300, 100), roundRod(12, 150), 30, Math.PI, [300, 250, 300])).toBeGreaterThan(12);
  });
  it('a rod in a bore', () => {
    expect(randomPoses(bore(190, 200, 90), roundRod(25, 80), 30, 0.6, [90, 60, 90])).toBeGreaterThan(12);
  });
  it('skew rods', () => {
    expect(randomPoses(roundRod(15, 150), roundRod(12, 200), 40, Math.PI, [120, 120, 120])).toBeGreaterThan(
      12,
    );
  });
  it('a rotor tilted and shifted in a bore', () => {
    expect(randomPoses(bore(190, 200, 90), roundRod(150, 11), 30, 0.15, [12, 40, 12])).toBeGreaterThan(12);
  });
  it('a rotor tilted by 5 degrees on the axis of the bore, also against the closed form', () => {
    const [around, rotor] = [bore(190, 200, 90), roundRod(150, 10)];
    const tilt = (5 * Math.PI) / 180;
    expect(compare(around, rotor, [1, 0, 0], tilt, ORIGIN, '5 degrees')).toBe('apart');
    const tilted = rotor.exact.clone().rotate(5, [0, 0, 0], [1, 0, 0]);
    expect(measureDistanceBetween(around.exact, tilted)).toBeCloseTo(190 - Math.hypot(150, 10), 9);
  });
});
