import { expose } from 'comlink';
import type { Rigid } from '../../../math/rigid.ts';
import type { Feature } from '../../../solids/features/feature.ts';
import type { Mesh } from '../../../solids/solid.ts';
import { pointAt, type Sight, type Sighted } from './pointAt.ts';
import { type ReadBody, readBody } from './readBody.ts';

/** A solid that a line of sight can meet. */
export interface SightedBody {
  solid: number;
  carrierFromVehicle: Rigid;
  isGlass: boolean;
}

const bodies = new Map<number, ReadBody>();

const api = {
  /** Finds the features of a solid, and keeps it for lines of sight. */
  read(solid: number, mesh: Mesh, errorMm: number): readonly Feature[] {
    const body = readBody(mesh, errorMm);
    bodies.set(solid, body);
    return body.features;
  },
  /** What a line of sight points at; the index is that of the solid. Undefined for nothing. */
  sight(sight: Sight, among: readonly SightedBody[]): Sighted | undefined {
    const ready = among.flatMap(({ solid, ...rest }) => {
      const body = bodies.get(solid);
      return body === undefined ? [] : [{ solid, body, ...rest }];
    });
    const sighted = pointAt(sight, ready);
    return sighted && { ...sighted, index: ready[sighted.index].solid };
  },
};
export type TapeApi = typeof api;
expose(api);
