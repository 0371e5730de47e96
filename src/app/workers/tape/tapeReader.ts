import { invert } from '../../../math/rigid.ts';
import type { Carriers } from '../../../mechanism/pose.ts';
import type { Feature } from '../../../solids/features/feature.ts';
import { drawnErrorMm, type Solid } from '../../../solids/solid.ts';
import { NewestRequest, RemoteWorker } from '../remote.ts';
import { type Pick, surfacePlace } from './pick.ts';
import type { Sight, Sighted } from './pointAt.ts';
import type { SightedBody, TapeApi } from './tapeWorker.ts';

interface Look {
  sight: Sight;
  carriers: Carriers;
  /** Indices of the visible solids, and those of them drawn as glass. */
  seen: readonly number[];
  glass: ReadonlySet<number>;
  /** A press, not a move: newer looks do not supersede it. */
  isPress: boolean;
}

/** Finds in a worker the features of the parts, and the feature under the pointer. */
export class TapeReader {
  private readonly solids: readonly Solid[];
  private readonly worker: RemoteWorker<TapeApi>;
  private readonly onFailure: (why: string) => void;
  private readonly looks = new NewestRequest();

  /** `onRead` receives the features of one solid after the other; `onFailure` the reason if the worker fails. */
  constructor(
    solids: readonly Solid[],
    onRead: (solid: number, features: readonly Feature[]) => void,
    onFailure: (why: string) => void,
  ) {
    this.solids = solids;
    this.onFailure = onFailure;
    this.worker = new RemoteWorker(
      new Worker(new URL('./tapeWorker.ts', import.meta.url), { type: 'module' }),
    );
    solids.forEach((solid, index) => {
      const mesh = solid.shown ?? solid.mesh;
      this.worker
        .call((api) => api.read(index, mesh, drawnErrorMm(solid)))
        .then(
          (features) => onRead(index, features),
          ({ message }: Error) => onFailure(message),
        );
    });
  }

  /**
   * What is pointed at; undefined for nothing, or if the worker fails. Never resolves if a newer look supersedes it, or
   * after `end`.
   */
  look(look: Look): Promise<Pick | undefined> {
    return this.looks
      .run(() => this.pick(look), look.isPress)
      .catch(({ message }: Error) => {
        this.onFailure(message);
        return undefined;
      });
  }

  end(): void {
    this.looks.clear();
    this.worker.end();
  }

  private async pick({ sight, carriers, seen, glass }: Look): Promise<Pick | undefined> {
    const carrierFromVehicle = new Map(
      Object.entries(carriers).map(([carrier, vehicleFromCarrier]) => [carrier, invert(vehicleFromCarrier)]),
    );
    const bodies = seen.map(
      (solid): SightedBody => ({
        solid,
        carrierFromVehicle: carrierFromVehicle.get(this.solids[solid].carrier) ?? new Float64Array(12),
        isGlass: glass.has(solid),
      }),
    );
    const sighted = await this.worker.call<Sighted | undefined>(
      (api) => api.sight(sight, bodies) as Promise<Sighted | undefined>,
    );
    return sighted && this.pickOf(sighted);
  }

  private pickOf(sighted: Sighted): Pick {
    const { index } = sighted;
    const what = 'feature' in sighted ? sighted.feature : surfacePlace(this.solids[index], sighted.at);
    return { solid: index, what };
  }
}
