import type { Mesh } from '../../solids/solid.ts';
import { drawnMesh } from './drawnMesh.ts';

new OffscreenCanvas(1, 1).getContext('webgl2');
self.postMessage('graphicsReady');

self.addEventListener('message', ({ data: meshes }: MessageEvent<readonly Mesh[]>) => {
  const drawn = meshes.map(drawnMesh);
  const transfer = drawn.flatMap(({ positions, normals, triangles, edges }) => [
    positions.buffer,
    normals.buffer,
    triangles.buffer,
    edges.buffer,
  ]);
  self.postMessage(drawn, { transfer: transfer as ArrayBuffer[] });
});
