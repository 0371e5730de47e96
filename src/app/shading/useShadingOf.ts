import { useEffect } from 'react';
import { Box3, BufferAttribute, BufferGeometry, Sphere, Vector3 } from 'three';
import { onWorkerDeath } from '../../executors/workerDeath.ts';
import type { OpenCorner } from '../engine.ts';
import { usePose } from '../stores/poseStore.ts';
import type { Shade } from './shadeCorner.ts';
import { dropSurfaces, type ShadedSurface, useShading } from './shadingStore.ts';
import type { ShadingReply, ShadingRequest } from './shadingWorker.ts';

/** A pose is measured once it has stood so long, ms: while it moves every answer would come too late. */
const STANDS_MS = 120;

/** Surfaces are taken in one by one, so far apart, ms: to hand all of them to the graphics card at once holds up the page. */
const APART_MS = 40;

/**
 * Keeps the surfaces of a corner measured at the pose on screen, in a worker of their own that is told of the corner by the
 * one that built it. What was measured is dropped the moment the pose moves on.
 */
export function useShadingOf(corner: OpenCorner): void {
  useEffect(() => {
    useShading.setState({ corner });
    const worker = new Worker(new URL('./shadingWorker.ts', import.meta.url), { type: 'module' });
    const post = (request: ShadingRequest, transfer: Transferable[] = []) =>
      worker.postMessage(request, transfer);
    const fail = (why: string) => useShading.setState({ failure: why });
    let pose = 0;
    /** The worker holds this corner. */
    let holds = false;
    let timer: ReturnType<typeof setTimeout> | undefined;
    let arrived: ShadingReply[] = [];
    let taking: ReturnType<typeof setTimeout> | undefined;
    const takeNext = () => {
      const next = arrived.shift();
      taking = undefined;
      if (next === undefined) return;
      if (next.kind === 'done') useShading.setState({ state: 'done' });
      if (next.kind === 'shade') take(next.shade);
      taking = setTimeout(takeNext, APART_MS);
    };
    const ask = () => {
      const { view } = usePose.getState();
      if (!holds || view?.pose.kind !== 'solved') return;
      useShading.setState({ state: 'measuring' });
      post({ kind: 'pose', pose, carriers: view.pose.carriers });
    };
    const follow = () => {
      pose += 1;
      arrived = [];
      dropSurfaces();
      post({ kind: 'stop' });
      clearTimeout(timer);
      timer = setTimeout(ask, STANDS_MS);
    };
    onWorkerDeath(worker, fail);
    worker.addEventListener('message', ({ data }: MessageEvent<ShadingReply>) => {
      if (data.kind === 'taken') {
        // Where it is another, that one is about to be shown.
        holds = data.designHash === corner.design.hash;
        return follow();
      }
      if (data.kind === 'failed') return fail(data.why);
      if (data.pose !== pose) return;
      arrived.push(data);
      taking ??= setTimeout(takeNext);
    });
    const { port1, port2 } = new MessageChannel();
    post({ kind: 'take', port: port2 }, [port2]);
    corner.share(port1).catch((error: Error) => fail(error.message));
    const stop = usePose.subscribe((now, before) => {
      if (now.view !== before.view || now.travelMm !== before.travelMm || now.steer !== before.steer)
        follow();
    });
    return () => {
      stop();
      clearTimeout(timer);
      clearTimeout(taking);
      worker.terminate();
      dropSurfaces();
      useShading.setState({ corner: undefined, failure: undefined });
    };
  }, [corner]);
}

function take({ sampled, ...shade }: Shade): void {
  const surface: ShadedSurface = {
    ...shade,
    geometry: undefined,
    betweenMm: sampled?.betweenMm ?? 0,
    samples: sampled?.clearanceMm.length ?? 0,
  };
  if (sampled !== undefined) {
    surface.geometry = new BufferGeometry();
    surface.geometry.setAttribute('position', new BufferAttribute(sampled.positions, 3));
    surface.geometry.setAttribute('normal', new BufferAttribute(sampled.normals, 3));
    surface.geometry.setAttribute('clearanceMm', new BufferAttribute(sampled.clearanceMm, 1));
    surface.geometry.setAttribute('marginMm', new BufferAttribute(sampled.marginMm, 1));
    // Told here, they need not be looked for when a ray is cast.
    const [x, y, z, toX, toY, toZ] = sampled.box;
    surface.geometry.boundingBox = new Box3(new Vector3(x, y, z), new Vector3(toX, toY, toZ));
    surface.geometry.boundingSphere = surface.geometry.boundingBox.getBoundingSphere(new Sphere());
    surface.geometry.setIndex(new BufferAttribute(sampled.triangles, 1));
  }
  useShading.setState(({ surfaces }) => ({ surfaces: new Map(surfaces).set(shade.solid, surface) }));
}
