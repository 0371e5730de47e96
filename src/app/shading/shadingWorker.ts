import type { Carriers } from '../../mechanism/pose.ts';
import type { Setup } from '../../sweep/setUp.ts';
import { type DrawnMesh, drawnMesh } from '../viewer/drawnMesh.ts';
import { type Shade, shadeCorner } from './shadeCorner.ts';

export type ShadingRequest =
  /** The corner comes out of a port. */
  | { kind: 'take'; port: MessagePort }
  /** A pose to be measured, in place of the one before. */
  | { kind: 'pose'; pose: number; carriers: Carriers }
  /** No pose is wanted any more. */
  | { kind: 'stop' };

export type ShadingReply =
  | { kind: 'taken'; designHash: string }
  | { kind: 'shade'; pose: number; shade: Shade }
  | { kind: 'done'; pose: number }
  /** It can measure no more. */
  | { kind: 'failed'; why: string };

/** Long enough to get on, short enough to hear of another pose, ms. */
const STRETCH_MS = 20;

const drawn = new Map<number, DrawnMesh>();
let setup: Setup | undefined;
let wanted: { pose: number; carriers: Carriers } | undefined;
let working = false;

const reply = (message: ShadingReply, transfer: ArrayBuffer[] = []) =>
  self.postMessage(message, { transfer });

const breathe = (): Promise<void> => {
  const { port1, port2 } = new MessageChannel();
  return new Promise((resolve) => {
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(undefined);
  });
};

/** Works until no pose is wanted any more; only one such run goes on at a time. */
function begin(): void {
  if (working || setup === undefined) return;
  working = true;
  work(setup)
    .then(() => {
      working = false;
    })
    // It stays at work: what has failed once is not asked again.
    .catch((error: unknown) =>
      reply({ kind: 'failed', why: error instanceof Error ? error.message : String(error) }),
    );
}

async function work(setup: Setup): Promise<void> {
  const { solids } = setup;
  const drawnOf = (solid: number): DrawnMesh => {
    const known = drawn.get(solid) ?? drawnMesh(solids[solid].mesh);
    drawn.set(solid, known);
    return known;
  };
  while (wanted !== undefined) {
    const { pose, carriers } = wanted;
    let since = performance.now();
    for (const shade of shadeCorner(setup, carriers, drawnOf)) {
      if (shade !== undefined) reply({ kind: 'shade', pose, shade }, buffersOf(shade));
      if (performance.now() - since < STRETCH_MS) continue;
      await breathe();
      if (wanted?.pose !== pose) break;
      since = performance.now();
    }
    if (wanted?.pose !== pose) continue;
    wanted = undefined;
    reply({ kind: 'done', pose });
  }
}

const buffersOf = ({ sampled }: Shade): ArrayBuffer[] =>
  sampled === undefined
    ? []
    : [sampled.positions, sampled.normals, sampled.triangles, sampled.clearanceMm, sampled.marginMm].map(
        ({ buffer }) => buffer as ArrayBuffer,
      );

self.addEventListener('message', ({ data }: MessageEvent<ShadingRequest>) => {
  if (data.kind === 'take') {
    data.port.onmessage = ({ data: taken }: MessageEvent<Setup>) => {
      data.port.close();
      setup = taken;
      reply({ kind: 'taken', designHash: taken.design.hash });
      begin();
    };
    return;
  }
  wanted = data.kind === 'pose' ? data : undefined;
  begin();
});
