import { buildContent } from './buildContent.ts';
import type { Block, ReportContent, Table } from './content.ts';
import { escapeHtml, linesOf } from './escape.ts';
import { figuresIn } from './figures.ts';
import type { ReportInput } from './reportInput.ts';
import { STYLE } from './style.ts';
import { sweepMapSvg } from './sweepMap.ts';

/** The clearance report as one self-contained HTML file without scripts, laid out for printing. */
export const reportHtml = (input: ReportInput): string => htmlOf(buildContent(input), sweepMapOf(input));

/** The sweep map as SVG, for `htmlOf`. */
export const sweepMapOf = ({ design, result, findings, unit, limits }: ReportInput): string =>
  sweepMapSvg(design.corner, result, findings, figuresIn(unit), limits?.stops);

/** The HTML of a report's content and its map. A caller that works in slices makes the two first, one at a time. */
export function htmlOf({ title, subtitle, verdict, sections }: ReportContent, map: string): string {
  return `${[
    '<!doctype html>',
    '<html lang="en">',
    '<head>',
    '<meta charset="utf-8">',
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    `<title>${escapeHtml(title)}</title>`,
    `<style>${STYLE}</style>`,
    '</head>',
    '<body>',
    '<main>',
    `<h1>${escapeHtml(title)}</h1>`,
    `<p class="subtitle">${escapeHtml(subtitle)}</p>`,
    `<p class="verdict ${verdict.state}"><strong>${escapeHtml(verdict.words)}.</strong> ${escapeHtml(verdict.sentence)}</p>`,
    ...sections.flatMap((section) => [
      '<section>',
      `<h2>${escapeHtml(section.title)}</h2>`,
      ...section.blocks.map((block) => blockOf(block, map)),
      '</section>',
    ]),
    '</main>',
    '</body>',
    '</html>',
  ].join('\n')}\n`;
}

const list = (items: string[], className = '') =>
  `<ul${className}>\n${items.map((item) => `<li>${escapeHtml(item)}</li>`).join('\n')}\n</ul>`;

function blockOf(block: Block, map: string): string {
  switch (block.kind) {
    case 'text':
      return `<p>${linesOf(block.text).map(escapeHtml).join('<br>')}</p>`;
    case 'list':
      return list(block.items);
    case 'caution':
      return list(block.items, ' class="caution"');
    case 'table':
      return tableOf(block);
    case 'map':
      return `<figure>${map}</figure>`;
  }
}

function tableOf({ columns, rows }: Table): string {
  const cellClass = (column: number) => (columns[column].figure ? ' class="figure"' : '');
  return [
    '<table>',
    `<thead><tr>${columns.map(({ title }, i) => `<th scope="col"${cellClass(i)}>${escapeHtml(title)}</th>`).join('')}</tr></thead>`,
    '<tbody>',
    ...rows.map(
      ({ cells, state }) =>
        `<tr${state === undefined ? '' : ` class="${state}"`}>${cells.map((cell, i) => `<td${cellClass(i)}>${escapeHtml(cell)}</td>`).join('')}</tr>`,
    ),
    '</tbody>',
    '</table>',
  ].join('\n');
}
