import { beforeEach, describe, expect, it } from 'vitest';
import { assumedValues, countAssumed } from '../../../src/app/bench/assumedValues.ts';
import {
  carryGuesses,
  confirmGuess,
  isGuess,
  noteGuesses,
  useGuesses,
} from '../../../src/app/bench/guesses.ts';
import { withId, withoutPart, withPart, withValue } from '../../../src/design/edit.ts';
import type { Path } from '../../../src/design/path.ts';
import { minimalCorner } from '../../design/fixtures.ts';

const box = { id: 'box', kind: 'box', centre: [0, 300, 300], size: [100, 50, 50] } as const;
const source = withPart(minimalCorner(), box);
const at = minimalCorner().parts.length;
const guessed = (held: unknown, path: Path) => isGuess(useGuesses.getState().guesses, held, { path });

beforeEach(() => {
  useGuesses.setState({ guesses: new Map() });
  noteGuesses(source, ['parts', at]);
});

describe('values to start from', () => {
  it('are guesses until they are typed over, and again when that is undone', () => {
    const size = ['parts', at, 'size'];
    expect(guessed(source, size)).toBe(true);
    const typed = withValue(source, size, ['4 in', '2 in', '2 in']);
    expect(guessed(typed, size)).toBe(false);
    expect(guessed(typed, ['parts', at, 'centre'])).toBe(true);
    expect(guessed(source, size)).toBe(true);
    expect(guessed(source, ['parts', at, 'kind'])).toBe(false);
    expect(guessed(source, ['parts', 0, 'width'])).toBe(false);
  });

  it('are guesses no more once confirmed', () => {
    confirmGuess(source, ['parts', at, 'size']);
    expect(guessed(source, ['parts', at, 'size'])).toBe(false);
    expect(guessed(source, ['parts', at, 'centre'])).toBe(true);
  });

  it('keep with their part when it moves in the file or has another id', () => {
    const moved = withoutPart(source, 0);
    expect(guessed(moved, ['parts', at - 1, 'size'])).toBe(true);
    const renamed = withId(source, at, 'battery');
    expect(guessed(renamed, ['parts', at, 'size'])).toBe(false);
    carryGuesses(source, renamed, at);
    expect(guessed(renamed, ['parts', at, 'size'])).toBe(true);
  });

  it('count among what nobody has given, a point as one', () => {
    const { guesses } = useGuesses.getState();
    const without = countAssumed(assumedValues(source));
    expect(countAssumed(assumedValues(source, guesses))).toBe(without + 2);
  });
});
