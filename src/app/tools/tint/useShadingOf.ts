import { proxy, transfer } from 'comlink';
import { useEffect } from 'react';
import { Box3, BufferAttribute, BufferGeometry, Sphere, Vector3 } from 'three';
import type { OpenCorner } from '../../state/engine.ts';
import { usePose } from '../../state/poseStore.ts';
import { RemoteWorker } from '../../workers/remote.ts';
import type { Shade } from '../../workers/tint/shadeCorner.ts';
import type { ShadingApi } from '../../workers/tint/shadingWorker.ts';
import { dropSurfaces, type ShadedSurface, useShading } from './shadingStore.ts';

/** Rest time of the pose before it is measured, ms: results of a moving pose would arrive too late. */
const REST_MS = 120;

/** Interval between surfaces handed to the graphics card, ms: handing over all at once would block the page. */
const INTERVAL_MS = 40;

/**
 * Measures the surfaces of a corner at the shown pose in its own worker, which gets the corner from the worker that built it.
 * The results are dropped as soon as the pose changes.
 */
export function useShadingOf(corner: OpenCorner): void {
  useEffect(() => {
    useShading.setState({ corner });
    const fail = (why: string) => useShading.setState({ failure: why });
    const worker = new RemoteWorker<ShadingApi>(
      new Worker(new URL('../../workers/tint/shadingWorker.ts', import.meta.url), { type: 'module' }),
      fail,
    );
    let pose = 0;
    /** Whether the worker has this corner. */
    let hasCorner = false;
    let timer: ReturnType<typeof setTimeout> | undefined;
    let arrived: (Shade | 'done')[] = [];
    let taking: ReturnType<typeof setTimeout> | undefined;
    const takeNext = () => {
      const next = arrived.shift();
      taking = undefined;
      if (next === undefined) return;
      if (next === 'done') useShading.setState({ state: 'done' });
      else take(next);
      taking = setTimeout(takeNext, INTERVAL_MS);
    };
    const requestSurfaces = () => {
      const { view } = usePose.getState();
      if (!hasCorner || view?.pose.kind !== 'solved') return;
      useShading.setState({ state: 'measuring' });
      const requested = pose;
      const { carriers } = view.pose;
      const arrive = (result: Shade | 'done') => {
        if (requested !== pose) return;
        arrived.push(result);
        taking ??= setTimeout(takeNext);
      };
      worker
        .call<void>((api) => api.measure(carriers, proxy(arrive)))
        .then(
          () => arrive('done'),
          ({ message }: Error) => fail(message),
        );
    };
    const follow = () => {
      pose += 1;
      arrived = [];
      dropSurfaces();
      worker.call<void>((api) => api.stop()).catch(() => {});
      clearTimeout(timer);
      timer = setTimeout(requestSurfaces, REST_MS);
    };
    const { port1, port2 } = new MessageChannel();
    worker
      .call<string>((api) => api.take(transfer(port2, [port2])))
      .then((designHash) => {
        // If it is another corner, that one is about to be shown.
        hasCorner = designHash === corner.design.hash;
        follow();
      })
      .catch(() => {});
    corner.share(port1).catch((error: Error) => fail(error.message));
    const stop = usePose.subscribe((now, before) => {
      if (now.view !== before.view || now.travelMm !== before.travelMm || now.steer !== before.steer)
        follow();
    });
    return () => {
      stop();
      clearTimeout(timer);
      clearTimeout(taking);
      worker.end();
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
    // Set here, so that ray casts need not compute them.
    const [x, y, z, toX, toY, toZ] = sampled.box;
    surface.geometry.boundingBox = new Box3(new Vector3(x, y, z), new Vector3(toX, toY, toZ));
    surface.geometry.boundingSphere = surface.geometry.boundingBox.getBoundingSphere(new Sphere());
    surface.geometry.setIndex(new BufferAttribute(sampled.triangles, 1));
  }
  useShading.setState(({ surfaces }) => ({ surfaces: new Map(surfaces).set(shade.solid, surface) }));
}
