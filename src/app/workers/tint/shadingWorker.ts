import { expose, transfer } from 'comlink';
import type { Carriers } from '../../../mechanism/pose.ts';
import type { Setup } from '../../../sweep/setUp.ts';
import { type DrawnMesh, drawnMesh } from '../drawing/drawnMesh.ts';
import { type Shade, shadeCorner } from './shadeCorner.ts';

/** Time between two looks at newer requests, ms. */
const STRETCH_MS = 20;

const drawn = new Map<number, DrawnMesh>();
let setup: Setup | undefined;
/** Number of the newest request. */
let newest = 0;

/** Lets requests that wait come in. */
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

const api = {
  /** Takes the corner that comes out of a port. Returns the hash of its design. */
  take(port: MessagePort): Promise<string> {
    return new Promise((resolve) => {
      port.onmessage = ({ data }: MessageEvent<Setup>) => {
        port.close();
        setup = data;
        resolve(data.design.hash);
      };
    });
  },

  /**
   * Measures the surfaces of the corner at a pose, one after the other. Resolves when `onShade` has received all of them, or
   * a newer request supersedes this one.
   */
  async measure(carriers: Carriers, onShade: (shade: Shade) => void): Promise<void> {
    newest += 1;
    const request = newest;
    if (setup === undefined) return;
    const { solids } = setup;
    const drawnOf = (solid: number): DrawnMesh => {
      const known = drawn.get(solid) ?? drawnMesh(solids[solid].mesh);
      drawn.set(solid, known);
      return known;
    };
    const sent: unknown[] = [];
    let since = performance.now();
    for (const shade of shadeCorner(setup, carriers, drawnOf)) {
      if (shade !== undefined) sent.push(onShade(transfer(shade, buffersOf(shade))));
      if (performance.now() - since < STRETCH_MS) continue;
      await breathe();
      if (request !== newest) return;
      since = performance.now();
    }
    await Promise.all(sent);
  },

  /** Ends the measuring at a pose. */
  stop(): void {
    newest += 1;
  },
};
export type ShadingApi = typeof api;
expose(api);

const buffersOf = ({ sampled }: Shade): ArrayBuffer[] =>
  sampled === undefined
    ? []
    : [sampled.positions, sampled.normals, sampled.triangles, sampled.clearanceMm, sampled.marginMm].map(
        ({ buffer }) => buffer as ArrayBuffer,
      );
