import { type SweptSpaceInput, sweptCells } from './measureBlocks.ts';
import type { MeasuredBlock, SurfaceBlocks } from './surfaceBlocks.ts';

/** Requests to a worker that measures blocks of a space. */
export type SpaceRequestMessage =
  | { kind: 'setSpace'; input: SweptSpaceInput }
  | { kind: 'block'; index: number };

/** A reply has the kind of its request, or gives the reason why the request failed. */
export type SpaceReply =
  | { kind: 'setSpace' }
  | { kind: 'block'; block: MeasuredBlock }
  | { kind: 'failed'; message: string };

/** The worker's side: replies to requests in order. Errors are sent as replies, never thrown. */
export function serveSpace(
  reply: (message: SpaceReply, transfer?: ArrayBuffer[]) => void,
): (request: SpaceRequestMessage) => void {
  let blocks: SurfaceBlocks | undefined;

  function handle(request: SpaceRequestMessage): void {
    if (request.kind === 'setSpace') {
      const swept = sweptCells(request.input);
      if (!('blocks' in swept)) throw new Error('the mechanism locks out in the range of the space');
      blocks = swept.blocks;
      reply({ kind: 'setSpace' });
      return;
    }
    if (blocks === undefined) throw new Error('the worker has no space yet: send setSpace first');
    const block = blocks.measure(request.index);
    reply({ kind: 'block', block }, [block.cubes.buffer as ArrayBuffer, block.values.buffer as ArrayBuffer]);
  }

  return (request) => {
    try {
      handle(request);
    } catch (error) {
      reply({ kind: 'failed', message: error instanceof Error ? error.message : String(error) });
    }
  };
}
