import type { CornerFiles } from '../../design/assets.ts';
import { parseDesign } from '../../design/parse.ts';
import type { SweepSettings } from '../../sweep/result.ts';
import { DesignProblems, type Problem } from '../../units/problem.ts';
import { Changes } from './changes.ts';
import type { PosedPair } from './posedPair.ts';
import type { Rate } from './rate.ts';
import type { StudiedInput } from './studiedInputs.ts';
import { Variants } from './variants.ts';

/** Requests to a worker that changes values. */
export type RatesRequest =
  /** Sets the corner, by its files, and the pairs to measure. While the corner stays the same, its changed solids are kept. */
  | { kind: 'setCorner'; files: CornerFiles; settings: SweepSettings; pairs: readonly PosedPair[] }
  /** Changes a value, and measures the pairs that change. */
  | { kind: 'rates'; input: StudiedInput };

/** A reply has the kind of its request, or gives the reason why the request failed. */
export type RatesReply =
  | { kind: 'setCorner' }
  /** `rates` by the index of the pair. */
  | { kind: 'rates'; problems: readonly Problem[]; rates: readonly (readonly [pair: number, rate: Rate])[] }
  | { kind: 'failed'; message: string };

/** The worker's side: replies to requests in order. Errors are sent as replies, never thrown. */
export function serveRates(reply: (message: RatesReply) => void): (request: RatesRequest) => void {
  let current: { variants: Variants<PosedPair>; pairs: readonly PosedPair[] } | undefined;
  let kept: { key: string; changes: Changes } | undefined;
  let queue: Promise<void> = Promise.resolve();

  async function handle(request: RatesRequest): Promise<RatesReply> {
    if (request.kind === 'setCorner') {
      const { files, settings, pairs } = request;
      const read = parseDesign(files.text, files.assets);
      if (read.kind === 'bad') throw new DesignProblems(read.problems);
      // The hash covers the assets.
      const key = JSON.stringify([files.text, read.design.hash, settings]);
      if (kept?.key !== key) kept = { key, changes: new Changes(read.design, settings) };
      current = { variants: await Variants.of(kept.changes, pairs), pairs };
      return { kind: 'setCorner' };
    }
    if (current === undefined) throw new Error('the worker has no corner yet: send setCorner first');
    const { variants, pairs } = current;
    const { problems, rates } = await variants.study(request.input);
    return { kind: 'rates', problems, rates: [...rates].map(([pair, rate]) => [pairs.indexOf(pair), rate]) };
  }

  return (request) => {
    queue = queue.then(() =>
      handle(request).then(reply, (error: unknown) =>
        reply({ kind: 'failed', message: error instanceof Error ? error.message : String(error) }),
      ),
    );
  };
}
