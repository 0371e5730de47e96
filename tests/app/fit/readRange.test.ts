import { describe, expect, it } from 'vitest';
import { readRange } from '../../../src/app/fit/readRange.ts';

describe('a range of clockings as typed', () => {
  it('is read with or without degree signs, in either minus', () => {
    expect(readRange({ from: '−20°', to: '12.5' })).toEqual({ fromDeg: -20, toDeg: 12.5 });
    expect(readRange({ from: ' 170 ', to: '190°' })).toEqual({ fromDeg: 170, toDeg: 190 });
  });

  it('is any clocking where nothing is typed', () => {
    expect(readRange({ from: '', to: ' ' })).toBeUndefined();
  });

  it.each([
    ['20', '', /both ends/],
    ['20', 'x', /"x" is not an angle/],
    ['190', '-170', /the second must be the larger/],
    ['-200', '200', /more than a whole turn/],
    ['-400', '-380', /from −360° to 360°, not -400/],
  ])('%s to %s is refused in words', (from, to, why) => {
    expect(readRange({ from, to })).toMatch(why);
  });
});
