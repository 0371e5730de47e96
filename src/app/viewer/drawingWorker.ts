import type { Mesh } from '../../solids/solid.ts';
import { drawnMesh } from './drawnMesh.ts';

if (typeof OffscreenCanvas !== 'undefined') new OffscreenCanvas(1, 1).getContext('webgl2');
self.postMessage('graphicsReady');

self.addEventListener('message', ({ data: mesh }: MessageEvent<Mesh>) => {
  const drawn = drawnMesh(mesh);
  const { positions, normals, triangles, edges } = drawn;
  const transfer = [positions, normals, triangles, edges].map(({ buffer }) => buffer as ArrayBuffer);
  self.postMessage(drawn, { transfer });
});
