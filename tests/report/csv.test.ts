import { expect, it } from 'vitest';
import { csv } from '../../src/report/csv.ts';

it('quotes as RFC 4180 says, and writes numbers plainly', () => {
  expect(
    csv(
      ['a', 'b, c'],
      [
        ['x "y"', -1.5],
        ['two\nlines', undefined],
        ['', Number.NaN],
      ],
    ),
  ).toBe('a,"b, c"\n"x ""y""",-1.5\n"two\nlines",\n,\n');
});

it('keeps a text from being read as a formula', () => {
  for (const start of ['=', '+', '-', '@', '\t', '\r'])
    expect(csv(['t'], [[`${start}HYPERLINK(1)`]])).toContain(`'${start}HYPERLINK`);
  expect(csv(['t'], [[-3]])).toBe('t\n-3\n');
});
