import { describe, expect, it } from 'vitest';
import { pairsInFewLines } from '../../src/report/groupedPairs.ts';

const solids = ['A', 'B', 'C', 'D', 'E'].map((label) => ({ label }));

/** The pairs of "AB", "AC". */
const pairsOf = (...names: string[]) =>
  names.map((name) => {
    const [a, b] = [...name].map((label) => solids.findIndex((solid) => solid.label === label));
    return { a, b };
  });

describe('names of pairs', () => {
  it.each([
    { pairs: ['AB'], lines: ['A ↔ B'] },
    { pairs: ['BA'], lines: ['A ↔ B'] },
    { pairs: ['AB', 'CD'], lines: ['A ↔ B', 'C ↔ D'] },
    { pairs: ['AB', 'AC', 'AD'], lines: ['A with B, C, D'] },
    { pairs: ['AB', 'AC', 'BC'], lines: ['each two of: A, B, C'] },
    {
      pairs: ['AB', 'AC', 'AD', 'AE', 'BC', 'BD', 'BE', 'CD'],
      lines: ['each two of: A, B, C, D, E; except C ↔ E; D ↔ E'],
    },
  ])('$pairs', ({ pairs, lines }) => expect(pairsInFewLines(solids, pairsOf(...pairs))).toEqual(lines));

  it('name 500 parts that are fixed to each other in one line', () => {
    const many = Array.from({ length: 500 }, (_, k) => ({ label: `part ${k}` }));
    const pairs = many.flatMap((_, a) => many.slice(a + 1).map((_, k) => ({ a, b: a + 1 + k })));
    const lines = pairsInFewLines(many, pairs);
    expect(lines).toHaveLength(1);
    expect(lines[0].length).toBeLessThan(6000);
  });
});
