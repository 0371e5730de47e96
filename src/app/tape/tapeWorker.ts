import type { Rigid } from '../../math/rigid.ts';
import type { Feature } from '../../solids/features/feature.ts';
import type { Mesh } from '../../solids/solid.ts';
import { pointAt, type Sight, type Sighted } from './pointAt.ts';
import { type ReadBody, readBody } from './readBody.ts';

export type TapeRequest =
  | { kind: 'read'; solid: number; mesh: Mesh; errorMm: number }
  | {
      kind: 'sight';
      sight: Sight;
      bodies: readonly { solid: number; carrierFromVehicle: Rigid; isGlass: boolean }[];
    };

export type TapeReply =
  | { kind: 'read'; solid: number; features: readonly Feature[] }
  /** The index is that of the solid. */
  | { kind: 'sight'; sighted: Sighted | undefined };

const read = new Map<number, ReadBody>();
const reply = (message: TapeReply) => self.postMessage(message);

self.addEventListener('message', ({ data }: MessageEvent<TapeRequest>) => {
  if (data.kind === 'read') {
    const body = readBody(data.mesh, data.errorMm);
    read.set(data.solid, body);
    return reply({ kind: 'read', solid: data.solid, features: body.features });
  }
  const ready = data.bodies.flatMap(({ solid, ...rest }) => {
    const body = read.get(solid);
    return body === undefined ? [] : [{ solid, body, ...rest }];
  });
  const sighted = pointAt(data.sight, ready);
  reply({ kind: 'sight', sighted: sighted && { ...sighted, index: ready[sighted.index].solid } });
});
