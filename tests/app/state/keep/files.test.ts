import { expect, it } from 'vitest';
import { markedName, unmarkedName } from '../../../../src/app/state/keep/files.ts';

it('marks the name of a file with wrong values once, and removes the mark', () => {
  expect(markedName('gravelbeck.corner.json')).toBe('gravelbeck.has-problems.corner.json');
  expect(markedName('gravelbeck.json')).toBe('gravelbeck.has-problems.corner.json');
  expect(markedName('gravelbeck')).toBe('gravelbeck.has-problems.corner.json');
  expect(markedName(markedName('gravelbeck.corner.json'))).toBe('gravelbeck.has-problems.corner.json');
  expect(unmarkedName('gravelbeck.has-problems.corner.json')).toBe('gravelbeck.corner.json');
});
