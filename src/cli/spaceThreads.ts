import { availableParallelism } from 'node:os';
import { startThread } from '../executors/nodeThreads.ts';
import { type SpacePool, startSpacePool } from '../studies/sweptSpace/spacePool.ts';

/** With less, a thread takes half as long again. */
const YOUNG_MB = 32;

/** Starts threads that measure blocks of a space, by default one for each core. */
export const spaceThreads = (threads = availableParallelism()): SpacePool =>
  startSpacePool(() => startThread(new URL('./spaceThread.ts', import.meta.url), YOUNG_MB), threads);
