import { expose, transfer } from 'comlink';
import type { Rigid } from '../../../math/rigid.ts';
import type { Carriers } from '../../../mechanism/pose.ts';
import { type CutBody, cutBodies, type PartCut } from './cut.ts';

let held: readonly CutBody[] = [];

const api = {
  /** Replaces the bodies to cut. */
  hold(bodies: readonly CutBody[]): void {
    held = bodies;
  },
  /** Cuts the held bodies at a pose. */
  cut(carriers: Carriers, vehicleFromPlane: Rigid): PartCut[] {
    const cuts = cutBodies(held, carriers, vehicleFromPlane);
    return transfer(
      cuts,
      cuts.flatMap((cut) => Object.values(cut).map(({ buffer }) => buffer as ArrayBuffer)),
    );
  },
};
export type CutApi = typeof api;
expose(api);
