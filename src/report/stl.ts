import type { Side } from '../design/side.ts';
import type { Mesh } from '../solids/solid.ts';

const HEADER = 80;
const FACET = 50;

/**
 * A mesh as binary STL, in mm, in the axes of the mesh. For the right side it is mirrored in the plane Y = 0, with the
 * winding of its triangles reversed so that they face outward. Layout, little-endian, 84 + 50 n bytes: an 80-byte header
 * that does not begin with "solid", the number of facets as uint32, then 50 bytes for each facet (normal and three corners
 * as float32, two zero bytes).
 */
export function stlBinary(mesh: Mesh, side: Side = 'left'): Uint8Array<ArrayBuffer> {
  const { positions, triangles } = mesh;
  const count = triangles.length / 3;
  const bytes = new Uint8Array(HEADER + 4 + FACET * count);
  const view = new DataView(bytes.buffer);
  bytes.set(new TextEncoder().encode('Binary STL, millimetres, X forward, Y left, Z up').subarray(0, HEADER));
  view.setUint32(HEADER, count, true);
  const mirror = side === 'right' ? -1 : 1;
  const order = side === 'right' ? [0, 2, 1] : [0, 1, 2];
  const corner = new Float64Array(9);
  for (let t = 0; t < count; t++) {
    for (let c = 0; c < 3; c++) {
      const vertex = 3 * triangles[3 * t + order[c]];
      corner[3 * c] = positions[vertex];
      corner[3 * c + 1] = mirror * positions[vertex + 1];
      corner[3 * c + 2] = positions[vertex + 2];
    }
    const at = HEADER + 4 + FACET * t;
    facetNormal(corner).forEach((value, i) => {
      view.setFloat32(at + 4 * i, value, true);
    });
    corner.forEach((value, i) => {
      view.setFloat32(at + 12 + 4 * i, value, true);
    });
  }
  return bytes;
}

/** Unit normal of a triangle (nine numbers); zero for a triangle without area, as readers expect. */
function facetNormal(t: Float64Array): [number, number, number] {
  const [ax, ay, az] = [t[3] - t[0], t[4] - t[1], t[5] - t[2]];
  const [bx, by, bz] = [t[6] - t[0], t[7] - t[1], t[8] - t[2]];
  const [x, y, z] = [ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx];
  const length = Math.hypot(x, y, z);
  return length > 0 ? [x / length, y / length, z / length] : [0, 0, 0];
}
