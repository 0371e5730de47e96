import { expect, it, vi } from 'vitest';
import { browserEngine } from '../../src/app/browserEngine.ts';
import type { OpenCorner } from '../../src/app/engine.ts';
import type { Row } from '../../src/sweep/row.ts';

/** A crew that answers about whichever corner it opened last, once it is let. */
const { crew, answers } = vi.hoisted(() => {
  const waiting: (() => void)[] = [];
  let held = '';
  const answer = <T>(made: () => T) => new Promise<T>((resolve) => waiting.push(() => resolve(made())));
  return {
    answers: waiting,
    crew: {
      alive: true,
      open: async (text: string) => {
        held = text;
        return { design: { hash: text } };
      },
      between: () => answer(() => [held]),
      prober: { ask: () => answer(() => ({ row: held })) },
    },
  };
});
vi.mock('../../src/executors/browserWorkers.ts', () => ({ crewOfWorkers: () => crew }));

const answerAll = async () => {
  for (const answer of answers.splice(0)) answer();
  await new Promise((resolve) => setTimeout(resolve));
};

it('gives a corner no answer that is about the one opened after it', async () => {
  const engine = browserEngine();
  const opened = async (text: string): Promise<OpenCorner> => {
    const found = await engine.open(text);
    if (found.kind === 'bad') throw new Error('the corner is not sound');
    return found.corner;
  };
  const rows: Row[] = [];
  const asked = async (corner: OpenCorner) => {
    const band = corner.between(0, [], []).then(String, ({ message }: Error) => message);
    const probe = await corner.probe(
      (_travel, _steer, row) => rows.push(row),
      () => {},
    );
    probe.ask(0, 0);
    return { band };
  };

  const first = await opened('first');
  const own = await asked(first);
  await answerAll();
  expect(await own.band).toBe('first');
  expect(rows).toEqual(['first']);

  const late = await asked(first);
  await opened('second');
  await answerAll();
  expect(await late.band).toBe('another corner has been opened');
  expect(rows).toEqual(['first']);
});
