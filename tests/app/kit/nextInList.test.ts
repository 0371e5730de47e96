import { describe, expect, it } from 'vitest';
import { nextInList } from '../../../src/app/kit/nextInList.ts';

describe('keys of a list', () => {
  it('move by one row or to the ends, within the list', () => {
    expect(nextInList('ArrowDown', -1, 3)).toBe(0);
    expect(nextInList('ArrowDown', 2, 3)).toBe(2);
    expect(nextInList('ArrowUp', 0, 3)).toBe(0);
    expect(nextInList('Home', 2, 3)).toBe(0);
    expect(nextInList('End', 0, 3)).toBe(2);
  });

  it('do nothing without rows, and other keys do nothing', () => {
    expect(nextInList('ArrowDown', -1, 0)).toBeUndefined();
    expect(nextInList('Enter', 1, 3)).toBeUndefined();
  });
});
