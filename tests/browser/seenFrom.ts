import type { Page } from 'playwright-core';
import { frame, reachOfPoints, screenAxes } from '../../src/app/viewer/frame.ts';
import { eyeDirection } from '../../src/app/viewer/standpoint.ts';
import { applyPoint } from '../../src/math/rigid.ts';
import { dot, sub, type Vec3 } from '../../src/math/vec.ts';
import type { Carriers } from '../../src/mechanism/pose.ts';
import { spinAxis } from '../../src/mechanism/spinAxis.ts';
import type { Solid } from '../../src/solids/solid.ts';
import type { Setup } from '../../src/sweep/setUp.ts';

/** How a left corner is seen once it is looked at from a standpoint. */
export interface Seen {
  /** Toward the eye. */
  eye: Vec3;
  pxPerMm: number;
  /** Where on the page a point of the vehicle is. */
  at(point: Vec3): { x: number; y: number };
}

/** Of the solids that are drawn, at a pose. The view must have come to rest by the time that it is used. */
export async function seenFrom(
  page: Page,
  standpoint: Parameters<typeof eyeDirection>[0],
  { design }: Setup,
  solids: readonly Solid[],
  carriers: Carriers,
): Promise<Seen> {
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
  return {
    eye,
    pxPerMm,
    at: (point) => ({
      x: view.x + view.width / 2 + pxPerMm * dot(sub(point, target), right),
      y: view.y + view.height / 2 - pxPerMm * dot(sub(point, target), up),
    }),
  };
}
