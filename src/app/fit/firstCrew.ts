import { clockingWorkers } from './clockingWorkers.ts';

/** The workers of the fit worker, started before it loads what it does itself. */
export const firstCrew = clockingWorkers();
