import { expect, it } from 'vitest';
import { inSharedMemory } from '../../src/executors/sharedMemory.ts';

it('copies plain data with its typed arrays in shared memory, each once', () => {
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

it('copies no array again that it has copied before', () => {
  const points = Float64Array.of(1, 2);
  const known = new WeakMap<object, object>();
  const first = inSharedMemory({ points }, known);
  expect(inSharedMemory({ other: points }, known).other).toBe(first.points);
});
