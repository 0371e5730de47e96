import { OrthographicCamera, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import { ARROW_PX, markerArrows } from '../../../src/app/view3d/markerDrawing.ts';
import type { Vec3 } from '../../../src/math/vec.ts';

/** Projection of a three.js camera, 800 by 600 px at 2 px a mm, looking along `-eye`. */
function projection(eye: Vec3, up: Vec3) {
  const camera = new OrthographicCamera(-400, 400, 300, -300, 1, 1e4);
  camera.zoom = 2;
  camera.up.set(...up);
  camera.position.set(...eye).multiplyScalar(4000);
  camera.lookAt(0, 0, 0);
  camera.updateProjectionMatrix();
  camera.updateMatrixWorld();
  return (p: Vec3) => {
    const { x, y } = new Vector3(...p).project(camera);
    return { x: (x + 1) * 400, y: (1 - y) * 300 };
  };
}

describe('arrows up and to the front', () => {
  it('are up and to the left at full length, seen from the left', () => {
    const [up, front] = markerArrows(projection([0, 1, 0], [0, 0, 1]));
    expect(up).toMatchObject({ name: 'up', x: expect.closeTo(0, 9), y: expect.closeTo(-ARROW_PX, 9) });
    expect(front).toMatchObject({ name: 'front', x: expect.closeTo(-ARROW_PX, 9), y: expect.closeTo(0, 9) });
  });

  it('leave out the arrow up, seen from above', () => {
    const arrows = markerArrows(projection([0, 0, 1], [1, 0, 0]));
    expect(arrows).toEqual([{ name: 'front', x: expect.closeTo(0, 9), y: expect.closeTo(-ARROW_PX, 9) }]);
  });

  it('are foreshortened by the square root of two thirds, seen along a diagonal', () => {
    for (const { x, y } of markerArrows(projection([1, 1, 1], [0, 0, 1])))
      expect(Math.hypot(x, y)).toBeCloseTo(ARROW_PX * Math.sqrt(2 / 3), 9);
  });
});
