import { describe, expect, it } from 'vitest';
import { nextInList } from '../../../src/app/panels/nextInList.ts';

describe('keys of a list', () => {
  it('go one row on, to the ends, and no further', () => {
    expect(nextInList('ArrowDown', -1, 3)).toBe(0);
    expect(nextInList('ArrowDown', 2, 3)).toBe(2);
    expect(nextInList('ArrowUp', 0, 3)).toBe(0);
    expect(nextInList('Home', 2, 3)).toBe(0);
    expect(nextInList('End', 0, 3)).toBe(2);
  });

  it('lead nowhere where there is no row, and by other keys', () => {
    expect(nextInList('ArrowDown', -1, 0)).toBeUndefined();
    expect(nextInList('Enter', 1, 3)).toBeUndefined();
  });
});
