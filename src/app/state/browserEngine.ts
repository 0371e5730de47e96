import { version } from '../../../package.json';
import type { CornerFiles } from '../../design/assets.ts';
import { startBrowserPool } from '../../executors/browserWorkers.ts';
import { PoseProbe } from '../../executors/poseProbe.ts';
import type { WorkerPool } from '../../executors/workerPool.ts';
import { contactsOf } from '../../findings/contactsOf.ts';
import { findingsOf } from '../../findings/findingsOf.ts';
import { limitFindings } from '../../findings/limitFindings.ts';
import { alignmentAt } from '../../mechanism/alignment.ts';
import { solvePose } from '../../mechanism/mechanism.ts';
import { limitsOf } from '../../proof/limits.ts';
import type { ReportInput } from '../../report/reportInput.ts';
import type { MeasuredLimit } from '../../sweep/limit.ts';
import { DEFAULT_SETTINGS, type SweepSettings } from '../../sweep/result.ts';
import type { Built } from '../../sweep/setUp.ts';
import { DesignProblems } from '../../units/problem.ts';
import { pause } from '../kit/pause.ts';
import { firstFrameDrawn, shadersReady } from '../kit/startupSignals.ts';
import type { Engine, OpenCorner, PoseView } from './engine.ts';

/** The engine in workers of this page, with the given sweep settings. All corners use the same workers, of `startPool`. */
export function browserEngine(
  settings: SweepSettings = DEFAULT_SETTINGS,
  startPool: () => WorkerPool = startBrowserPool,
): Engine {
  let pool: WorkerPool | undefined;
  /** The corner that the pool holds: the last one opened. */
  let current: Built | undefined;
  const currentPool = (): WorkerPool => {
    if (pool?.alive !== true) {
      pool?.end();
      pool = startPool();
    }
    return pool;
  };
  return {
    async open(files) {
      const openingPool = currentPool();
      try {
        const built = await openingPool.open(files, settings, firstFrameDrawn.wait);
        current = built;
        // Separate tasks for receiving and showing the corner, so that key presses are handled in between.
        await pause(0);
        // If the panels were drawn at the same time, the shaders would be late and the first frame would wait.
        await shadersReady.wait();
        const isCurrent = () => current === built;
        return { kind: 'open', corner: openCorner(files, built, openingPool, currentPool, isCurrent) };
      } catch (error) {
        if (error instanceof DesignProblems) return { kind: 'bad', problems: error.problems };
        throw error;
      }
    },
  };
}

function openCorner(
  files: CornerFiles,
  built: Built,
  firstPool: WorkerPool,
  currentPool: () => WorkerPool,
  isCurrent: () => boolean,
): OpenCorner {
  const { design, mechanism, solids, pairs, unchecked, travelMm, steer, tyre, settings } = built;
  let pool = Promise.resolve(firstPool);
  /** The pool; if one of its workers died, a new pool that has rebuilt the corner. */
  const livePool = async (): Promise<WorkerPool> => {
    const before = pool;
    if ((await before).alive || pool !== before) return pool;
    const next = currentPool();
    pool = next.open(files, settings).then(() => next);
    return pool;
  };
  /** Result of the pool for this corner; rejects if the pool holds another corner now. */
  const ifCurrent = async <T>(pending: Promise<T>): Promise<T> => {
    const result = await pending;
    if (!isCurrent()) throw new Error('another corner has been opened');
    return result;
  };
  let limits: readonly MeasuredLimit[] | undefined;
  const poseAt = (travel: number, lock: number): PoseView => {
    const pose = solvePose(mechanism, travel, lock);
    return {
      pose,
      alignment: pose.kind === 'solved' ? alignmentAt(mechanism, pose, tyre) : undefined,
    };
  };
  return {
    design,
    solids,
    pairs,
    unchecked,
    settings,
    travelMm,
    steer,
    poseAt,
    sweep: async (callbacks) => {
      const sweepPool = await livePool();
      const result = await sweepPool.sweep(callbacks);
      // After the rows, because the screen shows the rows as they arrive.
      limits ??= await sweepPool.limits();
      callbacks.signal.throwIfAborted();
      return result;
    },
    prove: async (result, callbacks) => (await livePool()).prove(result, callbacks),
    between: async (...request) => ifCurrent((await livePool()).between(...request)),
    limitsAt: (travel, lock) =>
      limitFindings(limitsOf(design.corner, mechanism, Float64Array.of(travel), Float64Array.of(lock))),
    findings: (result, proof) => findingsOf(result, limits, proof),
    probe: async (onRow, onFailure) =>
      new PoseProbe((await livePool()).poseWorker, (...row) => isCurrent() && onRow(...row), onFailure),
    share: async (port) =>
      void (await (await livePool()).poseWorker.request({ kind: 'sendCorner', port }, [port])),
    async report(result, findings, studies, unit) {
      const { alignment } = poseAt(0, 0);
      if (alignment === undefined)
        throw new Error('the corner cannot be posed at ride height, straight ahead');
      // Loaded on demand, so that the first picture does not wait for it.
      const { drawPictures } = await import('../../report/pictures.ts');
      const input: ReportInput = {
        design,
        solids,
        result,
        findings,
        contacts: await contactsOf(findings, async (pair, { travelMm: travel, steer: lock }) =>
          ifCurrent((await livePool()).contact(pair, travel, lock)),
        ),
        alignmentAtRideHeight: alignment,
        whyUnreachable(travel, lock) {
          const { pose } = poseAt(travel, lock);
          return pose.kind === 'unreachable' ? pose.reason : undefined;
        },
        ...studies,
        unit,
        version,
        date: new Date().toISOString(),
      };
      // Separate tasks, so that key presses are handled in between.
      const drawing = drawPictures(input);
      let drawn = drawing.next();
      for (; !drawn.done; drawn = drawing.next()) await pause(0);
      return { input, pictures: drawn.value };
    },
  };
}
