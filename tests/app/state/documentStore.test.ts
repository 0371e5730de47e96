import { describe, expect, it } from 'vitest';
import { type Change, withChange } from '../../../src/app/state/documentStore.ts';

const change = (label: string, seconds: number, merge?: string, held?: boolean): Change => ({
  label,
  source: label,
  at: new Date(1000 * seconds),
  merge,
  held,
});
const labels = (changes: readonly Change[]) =>
  changes
    .reduce<Pick<Parameters<typeof withChange>[0], 'changes' | 'now'>>(withChange, { changes: [], now: -1 })
    .changes.map(({ label }) => label);

describe('the history of a file', () => {
  it('merges changes of one value in quick succession, and keeps later ones and those of other values apart', () => {
    const opened = change('opened', 0);
    expect(labels([opened, change('a1', 1, 'a'), change('a2', 1.5, 'a'), change('b1', 1.6, 'b')])).toEqual([
      'opened',
      'a2',
      'b1',
    ]);
    expect(labels([opened, change('a1', 1, 'a'), change('a2', 3, 'a')])).toEqual(['opened', 'a1', 'a2']);
  });

  it('merges all changes of a drag, after any time', () => {
    expect(
      labels([
        change('opened', 0),
        change('a1', 1, 'a', true),
        change('a2', 9, 'a', true),
        change('a3', 99, 'a', true),
      ]),
    ).toEqual(['opened', 'a3']);
  });
});
