import { expect, it } from 'vitest';
import { inSharedMemory } from '../../src/executors/sharedMemory.ts';

it('copies plain data and puts each typed array into shared memory once', () => {
  const points = Float64Array.of(1, 2, Number.NaN, -0);
  const data = {
    name: 'a',
    none: undefined,
    lists: [points, { again: points }],
    flags: Uint8Array.of(7),
    n: 3,
  };
  const copy = inSharedMemory(data);
  expect(copy).toEqual(data);
  expect(copy.lists[0]).toBe((copy.lists[1] as { again: Float64Array }).again);
  for (const array of [copy.lists[0] as Float64Array, copy.flags])
    expect(array.buffer).toBeInstanceOf(SharedArrayBuffer);
  expect(points.buffer).toBeInstanceOf(ArrayBuffer);
});

it('reuses the copy of an array from an earlier call', () => {
  const points = Float64Array.of(1, 2);
  const known = new WeakMap<object, object>();
  const first = inSharedMemory({ points }, known);
  expect(inSharedMemory({ other: points }, known).other).toBe(first.points);
});
