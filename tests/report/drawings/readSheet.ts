import { XMLValidator } from 'fast-xml-parser';
import { type DefaultTreeAdapterTypes, parseFragment } from 'parse5';
import { expect } from 'vitest';
import { cornerDrawings } from '../../../src/report/drawings/cornerDrawings.ts';
import type { Sheet } from '../../../src/report/drawings/sheet.ts';
import type { Paper } from '../../../src/report/pdf/paper.ts';
import { buildSolids } from '../../../src/solids/catalogue.ts';
import { readDesign } from '../../design/readDesign.ts';

type Element = DefaultTreeAdapterTypes.Element;

const isElement = (node: DefaultTreeAdapterTypes.Node): node is Element => 'tagName' in node;
const below = (node: DefaultTreeAdapterTypes.ParentNode): Element[] =>
  node.childNodes.filter(isElement).flatMap((one) => [one, ...below(one)]);
const attribute = (element: Element, name: string): string | undefined =>
  element.attrs.find((one) => one.name === name)?.value;
const textOf = (node: DefaultTreeAdapterTypes.ParentNode): string =>
  node.childNodes
    .map((one) => ('value' in one ? one.value : 'childNodes' in one ? textOf(one) : ''))
    .join('');
const numbersIn = (path: string): number[] => (path.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);

/** Day of the drawings of tests. */
export const HEAD = { version: '9.9', date: '2026-05-04T10:00:00Z' };

/** The sheets of a corner file, by their keys. */
export async function sheetsOf(
  source: unknown,
  { unit = 'mm', paper = 'A4' }: { unit?: 'mm' | 'in'; paper?: Paper } = {},
): Promise<Record<Sheet['key'], Sheet>> {
  const design = readDesign(source);
  const solids = await buildSolids(design.corner, 0.2);
  const sheets = cornerDrawings({ design, solids, unit, paper, ...HEAD });
  return Object.fromEntries(sheets.map((sheet) => [sheet.key, sheet])) as Record<Sheet['key'], Sheet>;
}

/** A sheet's SVG, which must be well-formed XML, read by parse5. */
export function readSheet({ svg }: Pick<Sheet, 'svg'>) {
  expect(XMLValidator.validate(svg)).toBe(true);
  const fragment = parseFragment(svg);
  const elements = below(fragment);
  const [root] = elements;
  return {
    tags: new Set(elements.map(({ tagName }) => tagName)),
    attributes: new Set(elements.flatMap(({ attrs }) => attrs.map(({ name }) => name))),
    size: [attribute(root, 'width'), attribute(root, 'height'), attribute(root, 'viewBox')],
    texts: elements.filter(({ tagName }) => tagName === 'text').map(textOf),
    /** Length on paper of the line of each dimension, by its id; the arcs of angles are left out. */
    lines: new Map(
      elements
        .filter((one) => attribute(one, 'class') === 'dimension')
        .flatMap((group) => {
          const path = attribute(below(group)[0], 'd') ?? '';
          if (path.includes('A')) return [];
          const [x0, y0, x1, y1] = numbersIn(path);
          return [[attribute(group, 'data-dimension') ?? '', Math.hypot(x1 - x0, y1 - y0)] as const];
        }),
    ),
    /** Points of the outlines of parts, mm of the vehicle, with what they are filled with. */
    outlines: elements
      .filter((one) => attribute(one, 'transform')?.startsWith('scale('))
      .flatMap(below)
      .filter((one) => attribute(one, 'd')?.includes('Z') === true && attribute(one, 'fill') !== 'none')
      .map((one) => {
        const numbers = numbersIn(attribute(one, 'd') ?? '');
        const points = numbers.flatMap((x, i) => (i % 2 === 0 ? [[x, numbers[i + 1]]] : []));
        return { fill: attribute(one, 'fill'), points };
      }),
    /** How often a text occurs. */
    count: (words: string) =>
      elements.filter((one) => one.tagName === 'text' && textOf(one) === words).length,
  };
}
