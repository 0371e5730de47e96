import { describe, expect, it } from 'vitest';
import {
  type AxesPx,
  alongAxis,
  facingPlane,
  inPlane,
  isDraggable,
  movedText,
  pxPerMm,
} from '../../../../src/app/tools/points/dragging.ts';
import { pointKeyAt, pointsOf } from '../../../../src/app/tools/points/pointsOf.ts';
import { withValue } from '../../../../src/design/edit.ts';
import { cross, dot, normalize, type Vec3 } from '../../../../src/math/vec.ts';
import { minimalCorner } from '../../../design/fixtures.ts';
import { readDesign } from '../../../design/readDesign.ts';
import { between, mulberry32 } from '../../../oracles/random.ts';

const SEED = 11;

/** An orthographic view from a random direction at a random scale. `shown` projects a displacement, px. */
function randomView(next: () => number) {
  const eye = normalize([between(next, -1, 1), between(next, -1, 1), between(next, -1, 1)]);
  const right = normalize(cross([0, 0, 1], eye));
  const up = cross(eye, right);
  const scale = between(next, 0.1, 5);
  const shown = (v: Vec3) => ({ x: scale * dot(v, right), y: -scale * dot(v, up) });
  const axes: AxesPx = [shown([1, 0, 0]), shown([0, 1, 0]), shown([0, 0, 1])];
  return { shown, axes, scale, eye };
}

describe('a drag on the screen', () => {
  it('along an axis gives the displacement that projects to the drag, from any direction', () => {
    const next = mulberry32(SEED);
    for (let n = 0; n < 200; n++) {
      const { shown, axes, scale, eye } = randomView(next);
      expect(pxPerMm(axes), `seed ${SEED}, view ${n}`).toBeCloseTo(scale, 9);
      for (let axis = 0; axis < 3; axis++) {
        // The sine of the angle between the axis and the line of sight.
        expect(isDraggable(axes, axis)).toBe(Math.sqrt(1 - eye[axis] ** 2) > 0.2);
        const mm = between(next, -80, 80);
        const by = [0, 0, 0];
        by[axis] = mm;
        expect(alongAxis(shown(by as unknown as Vec3), axes[axis])).toBeCloseTo(mm, 6);
      }
    }
  });

  it('in the plane most square to the view gives the displacement that projects to the drag', () => {
    const next = mulberry32(SEED);
    for (let n = 0; n < 200; n++) {
      const { shown, axes, eye } = randomView(next);
      const [a, b] = facingPlane(axes);
      // The third axis is the one nearest to the line of sight.
      const out = [0, 1, 2].find((axis) => axis !== a && axis !== b) as number;
      expect(Math.abs(eye[out]), `seed ${SEED}, view ${n}`).toBeCloseTo(Math.max(...eye.map(Math.abs)), 12);
      const wanted = [between(next, -80, 80), between(next, -80, 80)];
      const by = [0, 0, 0];
      [by[a], by[b]] = wanted;
      const found = inPlane(shown(by as unknown as Vec3), axes[a], axes[b]);
      expect(found[0]).toBeCloseTo(wanted[0], 6);
      expect(found[1]).toBeCloseTo(wanted[1], 6);
    }
  });

  it('moves a length by whole steps and keeps the format of its text', () => {
    expect(movedText('700 mm', 12.3, undefined)).toBe('712.5 mm');
    expect(movedText('27 1/2', 25.4, 'in')).toBe('28 1/2');
    expect(movedText('27 1/2 in ±1/32', -1.7, 'mm')).toBe('27 7/16 in ±1/32');
    expect(movedText('27 1/2 in', 0.3, 'mm')).toBe('27 1/2 in');
    expect(movedText('-3/4', -50.8, 'in')).toBe('−2 3/4');
    expect(movedText('twelve', 5, 'mm')).toBeUndefined();
  });
});

describe('the points of a file', () => {
  const source = minimalCorner();
  const design = readDesign(source);
  const { suspension } = design.corner;

  it('have the typed coordinates and the carrier they move with', () => {
    const points = pointsOf(
      withValue(source, ['suspension', 'hardpoints', 'upperJoint', 2], '21 in'),
      suspension,
      'mm',
    );
    expect(points).toHaveLength(11);
    const joint = points.find(({ name }) => name === 'Upper joint');
    expect(joint).toMatchObject({ carrier: 'upperArm', texts: ['−20 mm', '680 mm', '21 in'] });
    expect(joint?.place).toEqual([-20, 680, 533.4]);
    expect(points.find(({ name }) => name === 'Arm mount')).toMatchObject({ carrier: 'lowerArm' });
  });

  it('keep the last valid coordinate while the typed text is not a length', () => {
    const nonsense = withValue(source, ['suspension', 'hardpoints', 'upperJoint', 2], 'high');
    const joint = pointsOf(nonsense, suspension, 'mm').find(({ name }) => name === 'Upper joint');
    expect(joint?.place).toEqual([-20, 680, 520]);
    expect(joint?.texts[2]).toBe('high');
  });

  it('are found by the path of any of their coordinates', () => {
    const key = 'suspension.hardpoints.upperJoint';
    expect(pointKeyAt(['suspension', 'hardpoints', 'upperJoint', 2])).toBe(key);
    expect(pointKeyAt(['suspension', 'damper', 'armMount', 0])).toBe('suspension.damper.armMount');
    expect(pointKeyAt(['suspension', 'travel', 'bump'])).toBeUndefined();
    expect(pointKeyAt(undefined)).toBeUndefined();
  });
});
