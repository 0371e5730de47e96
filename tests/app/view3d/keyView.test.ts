import { describe, expect, it } from 'vitest';
import type { CameraView } from '../../../src/app/state/viewStore.ts';
import { LEAST_PX_PER_MM, MOST_PX_PER_MM, viewAfterKey } from '../../../src/app/view3d/keyView.ts';
import { screenAxes } from '../../../src/math/screenAxes.ts';
import { dot, length, normalize, sub } from '../../../src/math/vec.ts';

const view: CameraView = { target: [10, 20, 30], eye: normalize([-0.8, -0.4, 0.4]), pxPerMm: 2 };

describe('keys on the picture', () => {
  it.each([
    ['ArrowRight', 'right', 1],
    ['ArrowLeft', 'right', -1],
    ['ArrowUp', 'up', 1],
    ['ArrowDown', 'up', -1],
  ] as const)(
    '%s orbits the eye in its direction by at most 5 degrees, and keeps the target',
    (key, axis, sign) => {
      const after = viewAfterKey(view, key, false);
      if (after === undefined) throw new Error('no view');
      expect(after.target).toEqual(view.target);
      expect(length(after.eye)).toBeCloseTo(1, 12);
      expect(sign * dot(sub(after.eye, view.eye), screenAxes(view.eye)[axis])).toBeGreaterThan(0);
      const turnedDeg = (Math.acos(dot(after.eye, view.eye)) * 180) / Math.PI;
      expect(turnedDeg).toBeGreaterThan(4);
      expect(turnedDeg).toBeLessThan(5.001);
    },
  );

  it('pan by 40 px with Shift', () => {
    const after = viewAfterKey(view, 'ArrowUp', true);
    if (after === undefined) throw new Error('no view');
    const moved = sub(after.target, view.target);
    expect(dot(moved, screenAxes(view.eye).up)).toBeCloseTo(20, 9);
    expect(length(moved)).toBeCloseTo(20, 9);
    expect(after.eye).toEqual(view.eye);
  });

  it('never orbit over the top', () => {
    let now = view;
    for (let i = 0; i < 60; i++) now = viewAfterKey(now, 'ArrowUp', false) ?? now;
    expect(now.eye[2]).toBeGreaterThan(0.999);
    expect(now.eye[2]).toBeLessThan(1);
    const back = viewAfterKey(now, 'ArrowDown', false) ?? now;
    expect(Math.atan2(back.eye[1], back.eye[0])).toBeCloseTo(Math.atan2(view.eye[1], view.eye[0]), 9);
  });

  it('zoom within limits', () => {
    expect(viewAfterKey(view, '+', false)?.pxPerMm).toBeGreaterThan(2);
    expect(viewAfterKey(view, '-', false)?.pxPerMm).toBeLessThan(2);
    expect(viewAfterKey({ ...view, pxPerMm: MOST_PX_PER_MM }, '+', true)?.pxPerMm).toBe(MOST_PX_PER_MM);
    expect(viewAfterKey({ ...view, pxPerMm: LEAST_PX_PER_MM }, '-', false)?.pxPerMm).toBe(LEAST_PX_PER_MM);
  });

  it('ignore all other keys', () => {
    expect(viewAfterKey(view, 'Tab', false)).toBeUndefined();
    expect(viewAfterKey(view, 'a', false)).toBeUndefined();
  });
});
