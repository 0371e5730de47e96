import { fromAxes, type Rigid } from '../../math/rigid.ts';
import { cross, perpendicular, type Vec3 } from '../../math/vec.ts';
import { sectionOf } from '../../solids/section.ts';
import type { Point2 } from '../../solids/simplePolygon.ts';
import type { Mesh } from '../../solids/solid.ts';
import type { SpacePlane } from '../../studies/sweptSpace/planeCrossing.ts';
import type { Box } from '../templates/drawing.ts';
import { templateDxf } from '../templates/dxf.ts';
import type { Entity } from '../templates/entity.ts';

const TEXT_MM = 12;

/**
 * The section of a mesh with a plane as DXF (R2000): one closed outline for each piece and hole, in millimetres, in the plane's
 * own x and y, and below them the plane as typed. Returns undefined if the plane misses the mesh.
 */
export function sectionDxf(mesh: Mesh, plane: SpacePlane): string | undefined {
  const outlines = sectionOf(mesh, planeFrame(plane)).flatMap(({ outer, holes }) => [outer, ...holes]);
  if (outlines.length === 0) return undefined;
  const loops = outlines.map((outline) =>
    Array.from({ length: outline.length / 2 }, (_, k): Point2 => [outline[2 * k], outline[2 * k + 1]]),
  );
  const box = boxOf(loops.flat());
  const label: Entity = {
    kind: 'text',
    layer: 'TEXT',
    at: [box.min[0], box.min[1] - 2 * TEXT_MM],
    heightMm: TEXT_MM,
    text: `Section of the space at ${plane.label}, mm`,
  };
  const entities = loops.map(
    (corners): Entity => ({
      kind: 'loop',
      layer: 'MARK',
      loop: { kind: 'path', corners: corners.map((at) => ({ at, bulge: 0 })) },
    }),
  );
  return templateDxf({ entities: [...entities, label], box }, 'AC1015');
}

function boxOf(points: readonly Point2[]): Box {
  const along = (axis: 0 | 1, pick: (a: number, b: number) => number) =>
    points.reduce((best, point) => pick(best, point[axis]), points[0][axis]);
  return { min: [along(0, Math.min), along(1, Math.min)], max: [along(0, Math.max), along(1, Math.max)] };
}

/**
 * The frame of a section: z along the normal. For planes square to an axis of the vehicle, x and y are the other two axes, so
 * that the drawing has their coordinates; else y is upward as far as the plane allows.
 */
function planeFrame({ point, normal }: { point: Vec3; normal: Vec3 }): Rigid {
  const [x, y, z] = normal.map(Math.abs);
  const flip = (a: Vec3): Vec3 => (normal.some((n) => n < -0.999_999) ? [-a[0], -a[1], -a[2]] : a);
  if (x > 0.999_999) return fromAxes(flip([0, 1, 0]), [0, 0, 1], normal, [point[0], 0, 0]);
  if (y > 0.999_999) return fromAxes(flip([0, 0, 1]), [1, 0, 0], normal, [0, point[1], 0]);
  if (z > 0.999_999) return fromAxes(flip([1, 0, 0]), [0, 1, 0], normal, [0, 0, point[2]]);
  const across = perpendicular(normal);
  return fromAxes(across, cross(normal, across), normal, point);
}
