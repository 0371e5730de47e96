import type { Content, ContentTable, TableCell, TDocumentDefinitions } from 'pdfmake/interfaces.js';
import type { PairState } from '../../findings/findings.ts';
import type { LimitState } from '../../findings/limitFindings.ts';
import type { Block, ReportContent, Section, Table } from '../content.ts';
import { linesOf } from '../escape.ts';
import { PAPER_MM, type Paper, POINTS_PER_MM } from './paper.ts';

/** Left, top, right, bottom. */
const MARGINS: [number, number, number, number] = [34, 34, 34, 40];
/** Points in one px of a drawing. */
const POINTS_PER_PX = 0.75;
/** No title starts further down a page, as a share of its height. */
const TITLE_BEFORE = 0.92;
/** Share of the width that a drawing beside text takes. */
const ASIDE = 0.42;

const INK = '#1d2327';
const SOFT = '#5d666c';
const LINE = '#d5d1c6';
const COLOURS: Partial<Record<PairState | LimitState, string>> = {
  touches: '#c2410c',
  binds: '#c2410c',
  tight: '#8f5c10',
  clear: '#3f6f63',
};

/**
 * The clearance report as a document for pdfmake, with the same content as in HTML. Folded details are open. Its fonts must
 * have a font named Roboto. The same content, paper and date give the same bytes.
 */
export function reportDefinition(
  { title, subtitle, verdict, sections }: ReportContent,
  paper: Paper,
  date: string,
): TDocumentDefinitions {
  const [width, height] = PAPER_MM[paper].map((mm) => mm * POINTS_PER_MM);
  const inside = width - MARGINS[0] - MARGINS[2];
  return {
    pageSize: { width, height },
    pageMargins: MARGINS,
    info: { title: printable(title), creationDate: new Date(date) },
    defaultStyle: { font: 'Roboto', fontSize: 8.6, lineHeight: 1.12, color: INK },
    footer: (page, count) => ({
      columns: [
        { text: printable(`${title}. ${subtitle}`), alignment: 'left' },
        { text: `${page} of ${count}`, alignment: 'right', width: 50 },
      ],
      margin: [MARGINS[0], 14, MARGINS[2], 0],
      fontSize: 6.5,
      color: SOFT,
    }),
    // Nothing fits below a title there.
    pageBreakBefore: ({ headlineLevel, startPosition }) =>
      headlineLevel === 1 && startPosition.verticalRatio > TITLE_BEFORE,
    content: [
      { text: printable(title), fontSize: 15, bold: true },
      { text: printable(subtitle), color: SOFT, fontSize: 7.5, margin: [0, 1, 0, 5] },
      {
        table: {
          widths: ['*'],
          body: [
            [
              {
                text: [
                  { text: `${printable(verdict.words)}. `, bold: true, color: COLOURS[verdict.state] ?? INK },
                  printable(verdict.sentence),
                ],
                fontSize: 9,
                margin: [6, 1, 2, 1],
              },
            ],
          ],
        },
        layout: {
          hLineWidth: () => 0,
          vLineWidth: (i) => (i === 0 ? 4 : 0),
          vLineColor: () => COLOURS[verdict.state] ?? SOFT,
        },
        margin: [0, 0, 0, 4],
      },
      ...sections.flatMap((section) => sectionContent(section, inside)),
    ],
  };
}

function sectionContent({ title, blocks, id, startsPage }: Section, width: number): Content[] {
  const heading: Content = {
    text: printable(title),
    fontSize: 11,
    bold: true,
    margin: [0, 8, 0, 3],
    headlineLevel: 1,
    ...(id === undefined ? {} : { id }),
    ...(startsPage ? { pageBreak: 'before' as const } : {}),
  };
  const content = contentOf(blocks, width);
  // A drawing that does not fit takes its title to the next page.
  if (startsPage || blocks[0]?.kind !== 'drawing') return [heading, ...content];
  return [{ stack: [heading, content[0]], unbreakable: true }, ...content.slice(1)];
}

/** A drawing beside text takes the block that follows into two columns. */
function contentOf(blocks: readonly Block[], width: number): Content[] {
  const content: Content[] = [];
  for (let i = 0; i < blocks.length; i++) {
    const block = blocks[i];
    if (block.kind === 'drawing' && block.isAside && i + 1 < blocks.length) {
      const drawn = ASIDE * width;
      content.push({
        columns: [
          { stack: contentOf([blocks[i + 1]], width - drawn), width: '*' },
          { svg: printable(block.svg), width: drawn },
        ],
        columnGap: 10,
      });
      i++;
    } else content.push(...blockContent(block, width));
  }
  return content;
}

function blockContent(block: Block, width: number): Content[] {
  switch (block.kind) {
    case 'text':
      return [{ text: linesOf(block.text).map(printable).join('\n'), margin: [0, 2, 0, 3] }];
    case 'list':
      return [{ ul: block.items.map(printable), margin: [0, 1, 0, 4] }];
    case 'caution':
      return [
        {
          table: { widths: ['*'], body: [[{ ul: block.items.map(printable), margin: [3, 3, 3, 3] }]] },
          layout: { hLineWidth: () => 1.4, vLineWidth: () => 1.4 },
          margin: [0, 2, 0, 4],
        },
      ];
    case 'table':
      return [tableContent(block)];
    case 'drawing':
      return [
        { svg: printable(block.svg), width: Math.min(width, widthOf(block.svg)), margin: [0, 3, 0, 3] },
      ];
    case 'folded':
      return [
        { text: printable(block.title), bold: true, color: SOFT, margin: [0, 4, 0, 2] },
        ...contentOf(block.blocks, width),
      ];
  }
}

const widthOf = (svg: string): number =>
  POINTS_PER_PX * Number(/ width="([\d.]+)"/.exec(svg)?.[1] ?? Number.POSITIVE_INFINITY);

/** Columns of figures take what they need, columns of words share the rest. */
function tableContent({ columns, rows }: Table): ContentTable {
  const words = columns.filter(({ figure }) => !figure).length;
  const isSmall = columns.length > 6;
  return {
    table: {
      headerRows: 1,
      dontBreakRows: true,
      widths: columns.map(({ figure, title }) => (figure || (words > 1 && SHORT.has(title)) ? 'auto' : '*')),
      body: [
        columns.map(
          ({ title, figure }): TableCell => ({
            text: printable(title),
            bold: true,
            color: SOFT,
            alignment: figure ? 'right' : 'left',
          }),
        ),
        ...rows.map(({ cells, state, to }) =>
          cells.map(
            (cell, i): TableCell => ({
              text: printable(cell),
              alignment: columns[i].figure ? 'right' : 'left',
              ...(i === 1 && state !== undefined
                ? { color: COLOURS[state] ?? INK, bold: state !== 'clear' }
                : {}),
              ...(i === 0 && to !== undefined ? { linkToDestination: to, color: '#2b3f9e' } : {}),
            }),
          ),
        ),
      ],
    },
    layout: {
      hLineWidth: () => 0.5,
      vLineWidth: () => 0,
      hLineColor: () => LINE,
      paddingLeft: () => 0,
      paddingRight: () => 6,
      paddingTop: () => 1.5,
      paddingBottom: () => 1.5,
    },
    fontSize: isSmall ? 6.4 : 7.4,
    margin: [0, 2, 0, 5],
  };
}

/** Columns of words that are always short. */
const SHORT = new Set(['No.', 'State', 'Result', 'Date']);

/** Text with the characters that the font has: marks of states are left out, as their words follow them. */
export const printable = (text: string): string => text.replace(/[✕◣] /g, '').replaceAll('↔', '–');
