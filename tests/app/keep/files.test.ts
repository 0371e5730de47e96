import { expect, it } from 'vitest';
import { markedName, unmarkedName } from '../../../src/app/keep/files.ts';

it('marks the name of a file with wrong values, once, and takes the mark off again', () => {
  expect(markedName('saltpan.corner.json')).toBe('saltpan.has-problems.corner.json');
  expect(markedName('saltpan.json')).toBe('saltpan.has-problems.corner.json');
  expect(markedName('saltpan')).toBe('saltpan.has-problems.corner.json');
  expect(markedName(markedName('saltpan.corner.json'))).toBe('saltpan.has-problems.corner.json');
  expect(unmarkedName('saltpan.has-problems.corner.json')).toBe('saltpan.corner.json');
});
