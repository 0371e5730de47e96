import { afterEach, expect, it } from 'vitest';
import { afterPicture, setDragging, setDrawing } from '../../../src/app/kit/afterPicture.ts';

afterEach(() => {
  setDrawing(false);
  setDragging(false);
});

it.each([
  [false, true],
  [true, false],
])('applies a change at once: drawing %s, dragging %s', (drawing, dragging) => {
  const made: string[] = [];
  setDrawing(drawing);
  setDragging(dragging);
  afterPicture('move', () => made.push('a'));
  afterPicture('measured', () => made.push('b'));
  expect(made).toEqual(['a', 'b']);
});

it('applies the newest change of each kind once, when the frame is done', () => {
  const made: string[] = [];
  setDragging(true);
  setDrawing(true);
  for (const name of ['a', 'b', 'c']) afterPicture('move', () => made.push(name));
  afterPicture('measured', () => made.push('m'));
  expect(made).toEqual([]);
  setDrawing(false);
  setDrawing(false);
  expect(made).toEqual(['c', 'm']);
});

it('applies a pending change when the drag ends, though a frame is still being drawn', () => {
  const made: string[] = [];
  setDragging(true);
  setDrawing(true);
  afterPicture('move', () => made.push('last'));
  setDragging(false);
  expect(made).toEqual(['last']);
});
