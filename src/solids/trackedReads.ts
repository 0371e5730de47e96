import { createProxy, getUntracked, isChanged, trackMemo } from 'proxy-compare';

/** A result, and whether it is also that of another input. */
export interface Tracked<Input, Result> {
  result: Result;
  /** Whether everything that the computation read is equal in another input. */
  holdsFor(other: Input): boolean;
}

/** What the proxies of an object need of it; kept, because finding it takes as long as the reads. */
const targets = new WeakMap<object, unknown>();

/**
 * Computes a result from plain data and records what is read of it. The result holds no proxies; its own objects must be
 * plain, and its numbers may be in typed arrays.
 */
export function trackReads<Input extends object, Result>(
  input: Input,
  compute: (input: Input) => Result,
): Tracked<Input, Result> {
  const reads = new WeakMap<object, unknown>();
  const result = withoutProxies(compute(createProxy(input, reads, new WeakMap(), targets)));
  // If no part of an object is recorded, all of it was read.
  const isEqual = (one: unknown, other: unknown): boolean =>
    Object.is(one, other) ||
    (isObject(one) && isObject(other) && !reads.has(one) && JSON.stringify(one) === JSON.stringify(other));
  return {
    result,
    holdsFor: (other) => !isChanged(input, other, reads, new WeakMap(), isEqual),
  };
}

/**
 * The original of a value that `trackReads` passes, which then counts as read as a whole. Reading a proxy many times takes
 * several times as long.
 */
export function readWhole<T>(value: T): T {
  const original = getUntracked(value);
  if (original === null) return value;
  trackMemo(value);
  return original;
}

const isObject = (value: unknown): value is object => typeof value === 'object' && value !== null;

/** Replaces proxies in a value by their originals, which then count as read as a whole. */
function withoutProxies<T>(value: T): T {
  if (!isObject(value) || ArrayBuffer.isView(value)) return value;
  const original = readWhole(value);
  if (original !== value) return original;
  const held = value as Record<string, unknown>;
  for (const key of Object.keys(held)) {
    const plain = withoutProxies(held[key]);
    if (plain !== held[key]) held[key] = plain;
  }
  return value;
}
