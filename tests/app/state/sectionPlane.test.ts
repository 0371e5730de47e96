import { describe, expect, it } from 'vitest';
import { type SectionPlace, vehicleFromSection } from '../../../src/app/state/sectionPlane.ts';
import { nameTags } from '../../../src/app/tools/section/nameTags.ts';
import {
  applyDirection,
  applyPoint,
  compose,
  identity,
  invert,
  type Rigid,
} from '../../../src/math/rigid.ts';
import { cross, distance, dot, length, normalize, sub, type Vec3 } from '../../../src/math/vec.ts';
import { prepareMechanism, solvePose } from '../../../src/mechanism/mechanism.ts';
import { frameOfGap } from '../../../src/solids/gapFrame.ts';
import { axialStack, vehicleFromWheelAxis } from '../../../src/solids/wheelFrame.ts';
import { minimalCorner } from '../../design/fixtures.ts';
import { readDesign } from '../../design/readDesign.ts';
import { between, mulberry32 } from '../../oracles/random.ts';

const design = readDesign(minimalCorner());
const { corner } = design;
const mechanism = prepareMechanism(corner.suspension, { damperBodyEnd: 'arm' });
function carriersAt(travelMm: number, steer: number) {
  const pose = solvePose(mechanism, travelMm, steer);
  if (pose.kind !== 'solved') throw new Error(`${travelMm}, ${steer} is out of reach`);
  return pose.carriers;
}

const seed = 77;
const random = mulberry32(seed);
const point = (): Vec3 => [between(random, -400, 400), between(random, 300, 900), between(random, 0, 700)];
const straight = { gap: undefined, offsetMm: 0, aboutDeg: 0, tiltDeg: 0, flipped: false };
const heightOver = (plane: Rigid, p: Vec3) => applyPoint(invert(plane), p)[2];

describe('the plane through a gap', () => {
  it('contains both points and the direction of the wheel axis, and has a right-handed frame', () => {
    for (let trial = 0; trial < 100; trial++) {
      const [a, b] = [point(), point()];
      const axis = {
        point: point(),
        direction: normalize([between(random, -0.2, 0.2), 1, between(random, -0.2, 0.2)]),
      };
      const plane = frameOfGap(a, b, axis);
      const place = `trial ${trial} of seed ${seed}`;
      expect(Math.abs(heightOver(plane, a)), place).toBeLessThan(1e-9);
      expect(Math.abs(heightOver(plane, b)), place).toBeLessThan(1e-9);
      const [x, y, z] = [0, 1, 2].map((k) => [plane[k], plane[4 + k], plane[8 + k]] as Vec3);
      expect(distance(cross(x, y), z), place).toBeLessThan(1e-12);
      if (length(cross(normalize(sub(b, a)), axis.direction)) > 0.35)
        expect(Math.abs(dot(z, axis.direction)), place).toBeLessThan(1e-12);
    }
  });

  it('goes through the wheel axis if the gap is along it', () => {
    const axis = { point: [0, 700, 300] as Vec3, direction: [0, 1, 0] as Vec3 };
    const plane = frameOfGap([120, 650, 380], [120.1, 653, 380], axis);
    expect(Math.abs(heightOver(plane, [120, 650, 380]))).toBeLessThan(1e-9);
    // Within 0.1 mm, because the gap is not exactly along the axis.
    expect(Math.abs(heightOver(plane, [0, 651.5, 300]))).toBeLessThan(0.1);
  });

  it('is defined if both points coincide, also on the axis', () => {
    const axis = { point: [0, 700, 300] as Vec3, direction: [0, 1, 0] as Vec3 };
    for (const p of [
      [50, 650, 380],
      [0, 650, 300],
    ] as Vec3[]) {
      const plane = frameOfGap(p, p, axis);
      expect(plane.every(Number.isFinite)).toBe(true);
      expect(Math.abs(heightOver(plane, p))).toBeLessThan(1e-9);
      expect(Math.abs(plane[6])).toBeLessThan(1e-12);
    }
  });
});

describe('planes fixed to the hub', () => {
  const pose = carriersAt(30, 0.5);
  const vehicleFromWheel = compose(pose.upright, vehicleFromWheelAxis(corner.suspension));
  const hubFace = (depthMm: number): Vec3 =>
    applyPoint(vehicleFromWheel, [0, axialStack(corner).hubFaceY + depthMm, 0]);
  const at = (place: Partial<SectionPlace>) =>
    vehicleFromSection({ ...straight, kind: 'upright', ...place }, corner, pose) as Rigid;

  it('contain the wheel axis at any pose and at any angle about it', () => {
    for (const kind of ['upright', 'level'] as const) {
      for (const aboutDeg of [0, 33, -120]) {
        const plane = at({ kind, aboutDeg });
        expect(Math.abs(heightOver(plane, hubFace(0)))).toBeLessThan(1e-9);
        expect(Math.abs(heightOver(plane, hubFace(-150)))).toBeLessThan(1e-9);
      }
    }
    expect(Math.abs(heightOver(at({ tiltDeg: 10 }), hubFace(-150)))).toBeCloseTo(
      150 * Math.sin(Math.PI / 18),
      9,
    );
  });

  it('across are at a depth from the wheel-mounting face, outboard positive', () => {
    for (const depthMm of [0, 25, -80]) {
      const plane = at({ kind: 'across', offsetMm: depthMm });
      expect(Math.abs(heightOver(plane, hubFace(depthMm)))).toBeLessThan(1e-9);
      expect(heightOver(plane, hubFace(depthMm + 10))).toBeCloseTo(10, 9);
    }
  });

  it('move along their normal, and stay in place with the other side cut away when flipped', () => {
    const [plain, slid, flipped] = [at({}), at({ offsetMm: 12 }), at({ offsetMm: 12, flipped: true })];
    const p = hubFace(-30);
    expect(heightOver(plain, p) - heightOver(slid, p)).toBeCloseTo(12, 9);
    expect(heightOver(flipped, p)).toBeCloseTo(-heightOver(slid, p), 9);
    // At ride height the normal of the upright section points to the rear, that of the level one up.
    const atRideHeight = carriersAt(0, 0);
    const normal = (kind: 'upright' | 'level') =>
      applyDirection(vehicleFromSection({ ...straight, kind }, corner, atRideHeight) as Rigid, [0, 0, 1]);
    expect(normal('upright')[0]).toBeLessThan(-0.99);
    expect(normal('level')[2]).toBeGreaterThan(0.99);
  });

  it('through a gap need a gap', () => {
    expect(vehicleFromSection({ ...straight, kind: 'gap' }, corner, pose)).toBeUndefined();
    const gap = {
      key: '',
      label: '',
      designHash: '',
      travelMm: 0,
      steer: 0,
      carrier: 'chassis' as const,
      carrierFromPlane: identity(),
    };
    expect(vehicleFromSection({ ...straight, kind: 'gap', gap }, corner, pose)).toEqual(identity());
  });
});

describe('names at a gap', () => {
  const size = { width: 80, height: 18 };
  it('are on the sides of their own parts and do not overlap', () => {
    for (let angle = 0; angle < 360; angle += 15) {
      const rad = (angle * Math.PI) / 180;
      const a = { x: 300, y: 300 };
      const b = { x: 300 + 20 * Math.cos(rad), y: 300 + 20 * Math.sin(rad) };
      const [one, other] = nameTags(a, b, size, size);
      const near = (p: { x: number; y: number }) => Math.hypot(p.x - one.at.x, p.y - one.at.y);
      expect(near(a), `${angle}`).toBeLessThan(near(b));
      const apart = Math.abs(one.at.x - other.at.x) >= 80 || Math.abs(one.at.y - other.at.y) >= 18;
      expect(apart, `${angle}`).toBe(true);
    }
  });
});
