import type { Rigid } from '../../math/rigid.ts';
import type { Carriers } from '../../mechanism/pose.ts';
import { type CutBody, cutBodies, type PartCut } from './cut.ts';

/** What the worker is told: the bodies that it holds from then on, or a cut through them. */
export type CutRequest =
  | { kind: 'bodies'; bodies: readonly CutBody[] }
  | { kind: 'cut'; carriers: Carriers; vehicleFromPlane: Rigid };

/** The answer to a cut. */
export type CutReply = { kind: 'cuts'; cuts: PartCut[] } | { kind: 'failed'; why: string };

let held: readonly CutBody[] = [];

self.addEventListener('message', ({ data }: MessageEvent<CutRequest>) => {
  if (data.kind === 'bodies') {
    held = data.bodies;
    return;
  }
  try {
    const cuts = cutBodies(held, data.carriers, data.vehicleFromPlane);
    const transfer = cuts.flatMap((cut) => Object.values(cut).map(({ buffer }) => buffer as ArrayBuffer));
    self.postMessage({ kind: 'cuts', cuts } satisfies CutReply, { transfer });
  } catch (error) {
    self.postMessage({ kind: 'failed', why: (error as Error).message } satisfies CutReply);
  }
});
