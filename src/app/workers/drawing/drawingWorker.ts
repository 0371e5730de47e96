import { expose, transfer } from 'comlink';
import type { Mesh } from '../../../solids/solid.ts';
import { type DrawnMesh, drawnMesh } from './drawnMesh.ts';

const api = {
  /** Makes the browser load its graphics: the first context of a page takes long. */
  readyGraphics(): void {
    if (typeof OffscreenCanvas !== 'undefined') new OffscreenCanvas(1, 1).getContext('webgl2');
  },
  /** Converts a mesh to what the graphics card draws. */
  drawnMesh(mesh: Mesh): DrawnMesh {
    const drawn = drawnMesh(mesh);
    const { positions, normals, triangles, edges } = drawn;
    return transfer(
      drawn,
      [positions, normals, triangles, edges].map(({ buffer }) => buffer as ArrayBuffer),
    );
  },
};
export type DrawingApi = typeof api;
expose(api);
