import type { Page } from 'playwright-core';
import { expect } from 'vitest';
import { frame } from '../../src/app/view3d/frame.ts';
import { eyeDirection } from '../../src/app/view3d/standpoint.ts';
import { applyPoint } from '../../src/math/rigid.ts';
import { screenAxes } from '../../src/math/screenAxes.ts';
import { distance, dot, sub, type Vec3 } from '../../src/math/vec.ts';
import type { Carriers } from '../../src/mechanism/pose.ts';
import { spinAxis } from '../../src/mechanism/spinAxis.ts';
import type { Solid } from '../../src/solids/solid.ts';
import type { Setup } from '../../src/sweep/setUp.ts';
import { reachOfPoints } from '../app/view3d/reachOfPoints.ts';
import { storedCamera } from './storedCamera.ts';

/** A standard view of a left corner on the page. */
export interface ProjectedView {
  /** Toward the eye. */
  eye: Vec3;
  pxPerMm: number;
  /** Position of a point of the vehicle on the page, px. */
  at(point: Vec3): { x: number; y: number };
}

/** The view of the drawn solids at a pose. Waits until the camera has turned there. */
export async function viewFrom(
  page: Page,
  standpoint: Parameters<typeof eyeDirection>[0],
  { design }: Setup,
  solids: readonly Solid[],
  carriers: Carriers,
): Promise<ProjectedView> {
  const view = await page.getByLabel('The corner in three dimensions').boundingBox();
  if (view === null) throw new Error('there is no view');
  const points = solids
    .filter(({ carrier }) => carrier !== 'chassis')
    .flatMap(({ mesh: { positions: p }, carrier }) =>
      Array.from({ length: p.length / 3 }, (_, v) =>
        applyPoint(carriers[carrier], [p[3 * v], p[3 * v + 1], p[3 * v + 2]]),
      ),
    );
  const eye = eyeDirection(standpoint, 'left', spinAxis(design.corner.suspension));
  const { target, pxPerMm } = frame(reachOfPoints(points), eye, view.width, view.height, 0.86);
  const { right, up } = screenAxes(eye);
  await expect
    .poll(async () => {
      const camera = await storedCamera(page);
      return (
        camera !== undefined &&
        distance(camera.eye, eye) < 1e-6 &&
        distance(camera.target, target) < 1 &&
        Math.abs(camera.pxPerMm / pxPerMm - 1) < 0.01
      );
    })
    .toBe(true);
  return {
    eye,
    pxPerMm,
    at: (point) => ({
      x: view.x + view.width / 2 + pxPerMm * dot(sub(point, target), right),
      y: view.y + view.height / 2 - pxPerMm * dot(sub(point, target), up),
    }),
  };
}
