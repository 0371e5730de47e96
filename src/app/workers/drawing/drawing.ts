import type { Mesh } from '../../../solids/solid.ts';
import { RemoteWorker } from '../remote.ts';
import type { DrawingApi } from './drawingWorker.ts';
import type { DrawnMesh } from './drawnMesh.ts';

let worker: RemoteWorker<DrawingApi> | undefined;
let ready: Promise<void> | undefined;

function drawingWorker(): RemoteWorker<DrawingApi> {
  if (worker === undefined || worker.ended)
    worker = new RemoteWorker(new Worker(new URL('./drawingWorker.ts', import.meta.url), { type: 'module' }));
  return worker;
}

/**
 * Makes the browser load its graphics in the drawing worker, which would otherwise block the page. Resolves when a canvas
 * is available without a wait, or the worker has failed.
 */
export function graphicsReady(): Promise<void> {
  ready ??= drawingWorker()
    .call<void>((api) => api.readyGraphics())
    .catch(() => {});
  return ready;
}

/** Converts a mesh in the drawing worker to what the graphics card draws. Rejects with an Error if the worker dies. */
export const drawnMesh = (mesh: Mesh): Promise<DrawnMesh> =>
  drawingWorker().call((api) => api.drawnMesh(mesh));
