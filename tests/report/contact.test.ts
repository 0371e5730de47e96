import { expect, it } from 'vitest';
import { figuresIn } from '../../src/report/figures.ts';
import { findingsJson } from '../../src/report/findingsJson.ts';
import { reportMarkdown } from '../../src/report/markdown.ts';
import { reportInput } from './fixture.ts';

const touching = reportInput({
  measure: (pair) => ({ mm: pair === 0 ? -1 : 20, errorMm: 0.1 }),
  contacts: new Map([
    [
      0,
      {
        lengthMm: 31.25,
        sharedVolumeMm3: 1234.5,
        reach: { low: [-12.34, -3, 100.01], high: [4, 0.21, 120] },
      },
    ],
  ]),
});
const clear = reportInput();

it('rounds a span outward, and keeps exact figures', () => {
  const { span } = figuresIn('mm');
  expect(span(-12.34, 4)).toBe('−12.4 to +4.0');
  expect(span(0.01, 0.21)).toBe('0.0 to +0.3');
  expect(span(0.1 + 0.2, 0.3)).toBe('+0.3 to +0.3');
  expect(figuresIn('in').span(-25.4, 25.5)).toBe('−1.00 to +1.01');
});

it('reports the extent of contact of a touching pair, and no contact if no pair touches', () => {
  expect(reportMarkdown(touching)).toContain('X −12.4 to +4.0, depth −3.0 to +0.3, Z +100.0 to +120.0 mm');
  expect(reportMarkdown(touching)).toContain('1.23 cm³');
  expect(figuresIn('in').volume(2 * 25.4 ** 3)).toBe('2.000 in³');
  expect(reportMarkdown(clear)).not.toContain('Contact at that pose');
});

it('writes the contact of the touching pair to findings.json, and null for the others', () => {
  const pairs: { state: string; worst: { contact: unknown } }[] = JSON.parse(
    findingsJson(touching, '1.2.3'),
  ).pairs;
  expect(pairs[0].worst.contact).toEqual({
    lengthMm: 31.25,
    sharedVolumeMm3: 1234.5,
    xMm: [-12.34, 4],
    depthMm: [-3, 0.21],
    zMm: [100.01, 120],
  });
  expect(pairs.slice(1).map(({ worst }) => worst.contact)).toEqual([null, null, null]);
});
