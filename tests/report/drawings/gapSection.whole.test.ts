import { parseFragment } from 'parse5';
import { describe, expect, it } from 'vitest';
import { gapSectionSvg } from '../../../src/report/drawings/gapSection.ts';
import { figuresIn } from '../../../src/report/figures.ts';
import { sweepAndProveHere } from '../../../src/studies/vary/measurePairs.ts';
import { setUp } from '../../../src/sweep/setUp.ts';
import { readDesign } from '../../design/readDesign.ts';
import { box, boxCorner, FEW_STEPS, parallelArms } from '../../studies/vary/boxCorner.ts';

/** Numbers of each attribute `d` whose element has the attributes. */
const pathsOf = (svg: string, attributes: RegExp): number[][] =>
  [...svg.matchAll(/<path d="([^"]*)"([^>]*)/g)]
    .filter(([, , rest]) => attributes.test(rest))
    .map(([, d]) => (d.match(/-?[\d.]+/g) ?? []).map(Number));

async function sectionOf(side: 'left' | 'right') {
  // At full bump the block is 8 mm below the fixed one; both are 40 mm long and wide.
  const design = readDesign(
    boxCorner(
      [
        box('rising', 'upright', [0, 640, 350], [40, 40, 30]),
        box('fixed', 'chassis', [0, 640, 365 + 60 + 8 + 10], [40, 40, 20]),
      ],
      { side, suspension: { ...parallelArms, steering: { rackOutboard: 0, rackInboard: 0 } } },
    ),
  );
  const setup = await setUp(design, FEW_STEPS);
  const { result, findings } = await sweepAndProveHere(setup, []);
  const [{ pair, worst }] = findings.pairs;
  if (worst === undefined) return expect.fail('the pair is far');
  return {
    worst,
    svg: gapSectionSvg({ design, solids: setup.solids }, result.pairs[pair], worst, figuresIn('mm')),
  };
}

describe.each(['left', 'right'] as const)('the section through a gap of a %s corner', (side) => {
  it('shows both parts at the scale of its bar, apart by the clearance', async () => {
    const { svg, worst } = await sectionOf(side);
    expect(worst.clearanceMm).toBeCloseTo(8, 6);
    const fills = pathsOf(svg, /fill-rule="evenodd"/).map((numbers) =>
      [0, 1].map((axis) => {
        const values = numbers.filter((_, i) => i % 2 === axis);
        return [Math.min(...values), Math.max(...values)];
      }),
    );
    expect(fills).toHaveLength(2);
    const [upper, lower] = fills.toSorted((one, other) => one[1][0] - other[1][0]);
    // The blocks are 40 mm across in the section, so that it has its own scale; the bar is 20 mm long.
    const pxPerMm = (upper[0][1] - upper[0][0]) / 40;
    expect(lower[1][0] - upper[1][1]).toBeCloseTo(8 * pxPerMm, 1);
    const [, from, to] =
      /M([\d.]+) [\d.]+V[\d.]+M[\d.]+ [\d.]+H([\d.]+)M/.exec(svg) ?? expect.fail('no scale bar');
    expect(svg).toContain('>20 mm</text>');
    expect(Number(to) - Number(from)).toBeCloseTo(20 * pxPerMm, 1);
    expect(svg).toMatch(/>8\.00 ± 0\.0\d mm</);
    for (const name of ['rising', 'fixed']) expect(svg).toContain(`>${name}</text>`);
    expect(parseFragment(svg).childNodes).toHaveLength(1);
  });
});
