import { CARRIERS } from '../../design/schema.ts';
import { onWorkerDeath } from '../../executors/workerDeath.ts';
import { invert } from '../../math/rigid.ts';
import type { Carriers } from '../../mechanism/pose.ts';
import type { Feature } from '../../solids/features/feature.ts';
import { drawnErrorMm, type Solid } from '../../solids/solid.ts';
import { type Pick, surfacePlace } from './pick.ts';
import type { Sight, Sighted } from './pointAt.ts';
import type { TapeReply, TapeRequest } from './tapeWorker.ts';

interface Look {
  sight: Sight;
  carriers: Carriers;
  /** Indices of the solids that can be seen, and those of them drawn as glass. */
  seen: readonly number[];
  glass: ReadonlySet<number>;
  /** It was pressed, not passed over: it is looked at whatever comes after it. */
  isPress: boolean;
}

/** Reads what can be measured from on the parts, and tells what is pointed at, in a worker. */
export class TapeReader {
  private readonly solids: readonly Solid[];
  private readonly worker: Worker;
  private readonly onRead: (solid: number, features: readonly Feature[]) => void;
  private waiting: { look: Look; tell(pick: Pick | undefined): void }[] = [];

  /** `onRead` gets the features of one solid after the other; `onFailure` the words of a worker that died. */
  constructor(
    solids: readonly Solid[],
    onRead: (solid: number, features: readonly Feature[]) => void,
    onFailure: (why: string) => void,
  ) {
    this.solids = solids;
    this.onRead = onRead;
    this.worker = new Worker(new URL('./tapeWorker.ts', import.meta.url), { type: 'module' });
    this.worker.addEventListener('message', ({ data }: MessageEvent<TapeReply>) => this.take(data));
    onWorkerDeath(this.worker, onFailure);
    // One by one: a mesh that is given away is copied first.
    solids.forEach((solid, index) => {
      const mesh = solid.shown ?? solid.mesh;
      this.post({ kind: 'read', solid: index, mesh, errorMm: drawnErrorMm(solid) });
    });
  }

  /**
   * What is pointed at; undefined for nothing. Never resolves where something newer was asked before this was looked at,
   * or the reader has ended.
   */
  look(look: Look): Promise<Pick | undefined> {
    return new Promise((resolve) => {
      this.waiting = this.waiting.filter((earlier, i) => i === 0 || earlier.look.isPress);
      this.waiting.push({ look, tell: resolve });
      if (this.waiting.length === 1) this.askFirst();
    });
  }

  end(): void {
    this.worker.terminate();
  }

  private askFirst(): void {
    const { sight, carriers, seen, glass } = this.waiting[0].look;
    const carrierFromVehicle = new Map(CARRIERS.map((carrier) => [carrier, invert(carriers[carrier])]));
    const bodies = seen.map((solid) => ({
      solid,
      carrierFromVehicle: carrierFromVehicle.get(this.solids[solid].carrier) ?? new Float64Array(12),
      isGlass: glass.has(solid),
    }));
    this.post({ kind: 'sight', sight, bodies });
  }

  private post(request: TapeRequest): void {
    this.worker.postMessage(request);
  }

  private take(reply: TapeReply): void {
    if (reply.kind === 'read') {
      this.onRead(reply.solid, reply.features);
      return;
    }
    const { sighted } = reply;
    const asked = this.waiting.shift();
    if (this.waiting.length > 0) this.askFirst();
    asked?.tell(sighted && this.pickOf(sighted));
  }

  private pickOf(sighted: Sighted): Pick {
    const { index } = sighted;
    const what = 'feature' in sighted ? sighted.feature : surfacePlace(this.solids[index], sighted.at);
    return { solid: index, what };
  }
}
