import { describe, expect, it } from 'vitest';
import { readRange } from '../../../../src/app/sheets/fit/readRange.ts';

describe('a range of clockings as typed', () => {
  it('is read with or without degree signs and with either minus sign', () => {
    expect(readRange({ from: '−20°', to: '12.5' })).toEqual({ fromDeg: -20, toDeg: 12.5 });
    expect(readRange({ from: ' 170 ', to: '190°' })).toEqual({ fromDeg: 170, toDeg: 190 });
  });

  it('is any clocking if nothing is typed', () => {
    expect(readRange({ from: '', to: ' ' })).toBeUndefined();
  });

  it.each([
    ['20', '', /both ends/],
    ['20', 'x', /"x" is not an angle/],
    ['190', '-170', /the second angle must be larger/],
    ['-200', '200', /more than a full turn/],
    ['-400', '-380', /from −360° to 360°, and is -400/],
  ])('rejects %s to %s with a message', (from, to, why) => {
    expect(readRange({ from, to })).toMatch(why);
  });
});
