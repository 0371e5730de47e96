import { onWorkerDeath } from '../../executors/workerDeath.ts';
import type { Rigid } from '../../math/rigid.ts';
import type { Carriers } from '../../mechanism/pose.ts';
import type { CutBody, PartCut } from './cut.ts';
import type { CutReply, CutRequest } from './cutWorker.ts';

let worker: Worker | undefined;
const waiting: { resolve: (reply: CutReply) => void }[] = [];

/** The worker that cuts, started when it is first needed. Answers come in the order of the questions. */
function cuttingWorker(): Worker {
  if (worker !== undefined) return worker;
  const made = new Worker(new URL('./cutWorker.ts', import.meta.url), { type: 'module' });
  made.addEventListener('message', ({ data }: MessageEvent<CutReply>) => waiting.shift()?.resolve(data));
  onWorkerDeath(made, (why) => {
    worker = undefined;
    made.terminate();
    for (const { resolve } of waiting.splice(0))
      resolve({ kind: 'failed', why: `the worker that cuts died: ${why}` });
  });
  worker = made;
  return made;
}

interface Wanted {
  carriers: Carriers;
  vehicleFromPlane: Rigid;
}

/** Cuts the bodies of one corner, away from the screen's thread. While a cut is made, only the newest wanted is kept. */
export class Cutter {
  private readonly bodies: readonly CutBody[];
  private readonly onCuts: (cuts: readonly PartCut[], vehicleFromPlane: Rigid) => void;
  private readonly onFailure: (why: string) => void;
  private holder: Worker | undefined;
  private wanted: Wanted | undefined;
  private busy = false;
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
    this.wanted = { carriers, vehicleFromPlane };
    if (!this.busy) void this.cutNewest();
  }

  /** No cut comes any more. */
  end(): void {
    this.ended = true;
  }

  private async cutNewest(): Promise<void> {
    this.busy = true;
    while (this.wanted !== undefined && !this.ended) {
      const { vehicleFromPlane } = this.wanted;
      const reply = await this.ask(this.wanted);
      if (this.ended) return;
      if (reply.kind === 'cuts') this.onCuts(reply.cuts, vehicleFromPlane);
      else this.onFailure(reply.why);
    }
    this.busy = false;
  }

  private ask(wanted: Wanted): Promise<CutReply> {
    this.wanted = undefined;
    const cutting = cuttingWorker();
    if (this.holder !== cutting) {
      cutting.postMessage({ kind: 'bodies', bodies: this.bodies } satisfies CutRequest);
      this.holder = cutting;
    }
    cutting.postMessage({ kind: 'cut', ...wanted } satisfies CutRequest);
    return new Promise((resolve) => waiting.push({ resolve }));
  }
}
