import type { Rigid } from '../../../math/rigid.ts';
import type { Carriers } from '../../../mechanism/pose.ts';
import { NewestRequest, RemoteWorker } from '../remote.ts';
import type { CutBody, PartCut } from './cut.ts';
import type { CutApi } from './cutWorker.ts';

/** Shared by all cutters, and started when it is first needed. */
let worker: RemoteWorker<CutApi> | undefined;
/** The bodies that the worker holds. */
let held: readonly CutBody[] | undefined;

/** The worker, which then holds these bodies. */
async function workerWith(bodies: readonly CutBody[]): Promise<RemoteWorker<CutApi>> {
  if (worker === undefined || worker.ended) {
    worker = new RemoteWorker(new Worker(new URL('./cutWorker.ts', import.meta.url), { type: 'module' }));
    held = undefined;
  }
  const current = worker;
  if (held !== bodies) {
    held = bodies;
    await current.call((api) => api.hold(bodies));
  }
  return current;
}

/** Cuts the bodies of one corner in a worker. While a cut is made, only the newest request waits. */
export class Cutter {
  private readonly bodies: readonly CutBody[];
  private readonly onCuts: (cuts: readonly PartCut[], vehicleFromPlane: Rigid) => void;
  private readonly onFailure: (why: string) => void;
  private readonly requests = new NewestRequest();
  private ended = false;

  constructor(
    bodies: readonly CutBody[],
    onCuts: (cuts: readonly PartCut[], vehicleFromPlane: Rigid) => void,
    onFailure: (why: string) => void,
  ) {
    this.bodies = bodies;
    this.onCuts = onCuts;
    this.onFailure = onFailure;
  }

  cut(carriers: Carriers, vehicleFromPlane: Rigid): void {
    this.requests
      .run(async () => (await workerWith(this.bodies)).call((api) => api.cut(carriers, vehicleFromPlane)))
      .then(
        (cuts) => {
          if (!this.ended) this.onCuts(cuts, vehicleFromPlane);
        },
        ({ message }: Error) => {
          if (!this.ended) this.onFailure(`the section worker failed: ${message}`);
        },
      );
  }

  /** Drops the cuts still to come. */
  end(): void {
    this.ended = true;
    this.requests.clear();
  }
}
