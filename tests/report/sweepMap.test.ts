import { type DefaultTreeAdapterMap, parseFragment } from 'parse5';
import { describe, expect, it } from 'vitest';
import { figuresIn } from '../../src/report/figures.ts';
import { mapCells, sweepMapSvg } from '../../src/report/sweepMap.ts';
import { cornerSource } from './cornerSource.ts';
import { type FixtureOptions, reportInput } from './fixture.ts';

/** Left edge of the map in the picture, and its size. */
const LEFT = 104;

type Element = DefaultTreeAdapterMap['element'];

const OPTIONS: FixtureOptions = {
  reaches: (travelMm, steer) => !(travelMm === 60 && steer === 1),
  measure: (pair, travelMm, steer) => {
    if (travelMm === 0 && steer === 0 && pair === 3) return undefined;
    // The fit pair falls short everywhere; the map leaves it out.
    if (pair === 1) return { mm: 0.5, errorMm: 0.1 };
    if (pair !== 0) return { mm: 40, errorMm: 0.1 };
    return { mm: travelMm === -50 && steer === 1 ? -1 : travelMm === -50 ? 4 : 12, errorMm: 0.1 };
  },
};

function mapOf(options: FixtureOptions) {
  const { design, result, findings } = reportInput(options);
  const svg = sweepMapSvg(design.corner, result, findings, figuresIn('mm'));
  const root = parseFragment(svg).childNodes[0] as Element;
  const all = (node: Element): Element[] =>
    node.childNodes.flatMap((child) => ('tagName' in child ? [child, ...all(child)] : []));
  const found = all(root);
  const attribute = (element: Element, name: string) => element.attrs.find((one) => one.name === name)?.value;
  const cells = found.filter(
    (one) =>
      one.parentNode !== null && attribute(one.parentNode as Element, 'shape-rendering') === 'crispEdges',
  );
  const boxOf = (one: Element) => ['x', 'y', 'width', 'height'].map((name) => Number(attribute(one, name)));
  return {
    cells: mapCells(result, findings),
    drawn: cells.map((one) => ({ box: boxOf(one), fill: attribute(one, 'fill') })),
    svg,
  };
}

describe('sweep map', () => {
  it('distinguishes touching, tight, clear, unknown and unreachable steps', () => {
    const { cells } = mapOf(OPTIONS);
    expect(cells[4]).toEqual({ kind: 'touches' });
    expect(cells[0]).toEqual({ kind: 'margin', marginMm: -1 });
    expect(cells[12]).toEqual({ kind: 'unknown' });
    expect(cells[24]).toEqual({ kind: 'unreachable' });
    expect(cells[20]).toEqual({ kind: 'margin', marginMm: 7 });
  });

  it('draws each cell at its travel and steer: bump at the top, left lock at the left', () => {
    const { drawn } = mapOf(OPTIONS);
    const area = drawn.reduce((sum, { box }) => sum + box[2] * box[3], 0);
    // 24 of 25 cells are drawn; the unreachable one is blank.
    expect(area / (640 * 420)).toBeCloseTo(24 / 25, 3);
    const touching = drawn.filter(({ fill }) => fill === 'url(#sweep-map-touches)');
    expect(touching).toHaveLength(1);
    const [x, y, width, height] = touching[0].box;
    expect(width).toBeCloseTo(128, 1);
    expect(height).toBeCloseTo(84, 1);
    expect(x).toBe(Math.min(...drawn.map(({ box }) => box[0])));
    expect(y).toBe(Math.max(...drawn.map(({ box }) => box[1])));
  });

  it('draws the same step of a right corner on the other side', () => {
    const touching = (side: 'left' | 'right') =>
      mapOf({ ...OPTIONS, source: cornerSource({ side }) }).drawn.find(
        ({ fill }) => fill === 'url(#sweep-map-touches)',
      );
    const [left, right] = [touching('left')?.box ?? [], touching('right')?.box ?? []];
    expect(left[0] - LEFT).toBeCloseTo(0, 1);
    expect(right[0] - LEFT).toBeCloseTo(640 - 128, 1);
  });
});
