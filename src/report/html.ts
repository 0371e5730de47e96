import { buildContent } from './buildContent.ts';
import type { Block, ReportContent, Table } from './content.ts';
import { escapeHtml, linesOf } from './escape.ts';
import { picturesOf } from './pictures.ts';
import type { ReportInput } from './reportInput.ts';
import { STYLE } from './style.ts';

/** The clearance report as one self-contained HTML file without scripts, laid out for printing. */
export const reportHtml = (input: ReportInput, pictures = picturesOf(input)): string =>
  htmlOf(buildContent(input, pictures));

/** The HTML of a report's content. */
function htmlOf({ title, subtitle, verdict, sections }: ReportContent): string {
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
    ...sections.flatMap(({ title: heading, blocks, id, startsPage }) => [
      `<section${id === undefined ? '' : ` id="${id}"`}${startsPage ? ' class="page"' : ''}>`,
      `<h2>${escapeHtml(heading)}</h2>`,
      ...blocks.map(blockOf),
      '</section>',
    ]),
    '</main>',
    '</body>',
    '</html>',
  ].join('\n')}\n`;
}

const list = (items: string[], className = '') =>
  `<ul${className}>\n${items.map((item) => `<li>${escapeHtml(item)}</li>`).join('\n')}\n</ul>`;

function blockOf(block: Block): string {
  switch (block.kind) {
    case 'text':
      return `<p>${linesOf(block.text).map(escapeHtml).join('<br>')}</p>`;
    case 'list':
      return list(block.items);
    case 'caution':
      return list(block.items, ' class="caution"');
    case 'table':
      return tableOf(block);
    case 'drawing':
      return `<figure${block.isAside ? ' class="aside"' : ''}>${block.svg}</figure>`;
    case 'folded':
      return [
        `<details><summary>${escapeHtml(block.title)}</summary>`,
        ...block.blocks.map(blockOf),
        '</details>',
      ].join('\n');
  }
}

/** A word that may be broken, so that no column is too wide for the page; shorter ones stay whole. */
const LONG_WORD = /\S{20}/;

function tableOf({ columns, rows }: Table): string {
  const cellClass = (column: number) => (columns[column].figure ? ' class="figure"' : '');
  const classOf = (column: number, text: string) =>
    LONG_WORD.test(text) ? ' class="long"' : cellClass(column);
  return [
    '<table>',
    `<thead><tr>${columns.map(({ title }, i) => `<th scope="col"${cellClass(i)}>${escapeHtml(title)}</th>`).join('')}</tr></thead>`,
    '<tbody>',
    ...rows.map(
      ({ cells, state, to }) =>
        `<tr${state === undefined ? '' : ` class="${state}"`}>${cells
          .map((cell, i) => {
            const text = escapeHtml(cell);
            return `<td${classOf(i, cell)}>${i === 0 && to !== undefined ? `<a href="#${to}">${text}</a>` : text}</td>`;
          })
          .join('')}</tr>`,
    ),
    '</tbody>',
    '</table>',
  ].join('\n');
}
