import { describe, expect, it } from 'vitest';
import { bracketedNewton, type Sample } from '../../src/math/rootFinding.ts';

function recordSamples(value: (x: number) => number, slope: (x: number) => number) {
  const sampled: number[] = [];
  const sample = (x: number): Sample => {
    sampled.push(x);
    return { x, value: value(x), slope: slope(x) };
  };
  return { sampled, sample };
}

describe('bracketed Newton', () => {
  it.each([
    { name: 'sqrt 2', f: (x: number) => x * x - 2, d: (x: number) => 2 * x, ends: [0, 2], root: Math.SQRT2 },
    {
      name: 'the same from above',
      f: (x: number) => x * x - 2,
      d: (x: number) => 2 * x,
      ends: [2, 0],
      root: Math.SQRT2,
    },
    { name: 'pi / 2 of cos', f: Math.cos, d: (x: number) => -Math.sin(x), ends: [0.1, 3], root: Math.PI / 2 },
    { name: 'ln 10', f: (x: number) => Math.exp(x) - 10, d: Math.exp, ends: [-20, 30], root: Math.log(10) },
    // Newton's method alone diverges from every start here.
    {
      name: 'cube root at 0',
      f: Math.cbrt,
      d: (x: number) => Math.cbrt(x) / (3 * x),
      ends: [-1, 3],
      root: 0,
    },
  ])('$name', ({ f, d, ends, root }) => {
    const { sampled, sample } = recordSamples(f, d);
    const found = bracketedNewton(sample, sample(ends[0]), sample(ends[1]), 1e-14);
    if (found === undefined) return expect.fail('nothing found');
    expect(Math.abs(found.x - root)).toBeLessThan(1e-13);
    for (const x of sampled) expect(x >= Math.min(...ends) && x <= Math.max(...ends)).toBe(true);
    expect(sampled.length).toBeLessThan(200);
  });

  it('returns an end that is already a root', () => {
    const { sampled, sample } = recordSamples(
      (x) => x,
      () => 1,
    );
    expect(bracketedNewton(sample, sample(0), sample(5), 1e-12)?.x).toBe(0);
    expect(bracketedNewton(sample, sample(-5), sample(0), 1e-12)?.x).toBe(0);
    expect(sampled.length).toBe(4);
  });

  it('stops at neighbouring numbers if the function jumps over zero', () => {
    const { sampled, sample } = recordSamples(
      (x) => (x < 1 / 3 ? -1 : 2),
      () => 0,
    );
    const found = bracketedNewton(sample, sample(0), sample(1), 1e-12);
    expect(found?.value).toBe(-1);
    // The bracket was halved down to neighbouring numbers at the jump.
    expect(Math.abs(sampled.at(-1)! - 1 / 3)).toBeLessThan(1e-15);
    expect(sampled.length).toBeLessThan(70);
  });

  it('rejects ends of equal sign, and returns undefined if the function has no value', () => {
    const { sample } = recordSamples(
      (x) => x * x + 1,
      (x) => 2 * x,
    );
    expect(() => bracketedNewton(sample, sample(-1), sample(2), 1e-9)).toThrow(/no root bracketed/);
    const line = (x: number): Sample => ({ x, value: x - 0.4, slope: 0.1 });
    expect(bracketedNewton(() => undefined, line(0), line(1), 1e-9)).toBeUndefined();
  });
});
