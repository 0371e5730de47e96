import { DxfWriter, LWPolylineFlags, point2d, Units } from '@tarikjabiri/dxf';
import { fromAxes, type Rigid } from '../../math/rigid.ts';
import { cross, perpendicular, type Vec3 } from '../../math/vec.ts';
import { sectionOf } from '../../solids/section.ts';
import type { Mesh } from '../../solids/solid.ts';

/**
 * The section of a mesh with a plane as DXF: one closed polyline for each outline, in millimetres, in the plane's own x and y.
 * Returns undefined if the plane misses the mesh.
 */
export function sectionDxf(mesh: Mesh, plane: { point: Vec3; normal: Vec3 }): string | undefined {
  const outlines = sectionOf(mesh, planeFrame(plane)).flatMap(({ outer, holes }) => [outer, ...holes]);
  if (outlines.length === 0) return undefined;
  const dxf = new DxfWriter();
  dxf.setUnits(Units.Millimeters);
  for (const outline of outlines) {
    const vertices = Array.from({ length: outline.length / 2 }, (_, k) => ({
      point: point2d(outline[2 * k], outline[2 * k + 1]),
    }));
    dxf.addLWPolyline(vertices, { flags: LWPolylineFlags.Closed });
  }
  return dxf.stringify();
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
