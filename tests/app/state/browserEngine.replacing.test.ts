import { expect, it, vi } from 'vitest';
import { browserEngine } from '../../../src/app/state/browserEngine.ts';
import type { OpenCorner } from '../../../src/app/state/engine.ts';
import { type CornerFiles, NO_ASSETS } from '../../../src/design/assets.ts';
import type { Row } from '../../../src/sweep/row.ts';

/** A pool that returns results for the corner opened last; `replies` holds them back. */
const { pool, replies } = vi.hoisted(() => {
  const waiting: (() => void)[] = [];
  let current = '';
  const reply = <T>(make: () => T) => new Promise<T>((resolve) => waiting.push(() => resolve(make())));
  return {
    replies: waiting,
    pool: {
      alive: true,
      open: async ({ text }: CornerFiles) => {
        current = text;
        return { design: { hash: text } };
      },
      between: () => reply(() => [current]),
      poseWorker: { request: () => reply(() => ({ row: current })) },
    },
  };
});
vi.mock('../../../src/executors/browserWorkers.ts', () => ({ startBrowserPool: () => pool }));

const releaseReplies = async () => {
  for (const reply of replies.splice(0)) reply();
  await new Promise((resolve) => setTimeout(resolve));
};

it('rejects results of a corner that has been replaced by another one', async () => {
  const engine = browserEngine();
  const open = async (text: string): Promise<OpenCorner> => {
    const result = await engine.open({ text, assets: NO_ASSETS });
    if (result.kind === 'bad') throw new Error('the corner has problems');
    return result.corner;
  };
  const rows: Row[] = [];
  const request = async (corner: OpenCorner) => {
    const band = corner.between(0, [], []).then(String, ({ message }: Error) => message);
    const probe = await corner.probe(
      (_travel, _steer, row) => rows.push(row),
      () => {},
    );
    probe.request(0, 0);
    return { band };
  };

  const first = await open('first');
  const early = await request(first);
  await releaseReplies();
  expect(await early.band).toBe('first');
  expect(rows).toEqual(['first']);

  const late = await request(first);
  await open('second');
  await releaseReplies();
  expect(await late.band).toBe('another corner has been opened');
  expect(rows).toEqual(['first']);
});
