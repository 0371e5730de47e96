import { clockingWorkers } from './clockingWorkers.ts';

/** The workers of the clocking worker. They start before it loads its own code. */
export const firstPool = clockingWorkers();
