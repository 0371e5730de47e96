import type { TDocumentDefinitions } from 'pdfmake/interfaces.js';
import { tessellated } from '../../solids/flatPlates/loops.ts';
import type { Point2 } from '../../solids/simplePolygon.ts';
import { PAPER_MM, type Paper, POINTS_PER_MM } from '../pdf/paper.ts';
import { printable } from '../pdf/reportPdf.ts';
import { type Drawing, PRINT_SENTENCE, wrapped } from './drawing.ts';
import type { Entity } from './entity.ts';
import { checkBars, textsOf } from './sheet.ts';
import { CAP_TO_SIZE, entitiesSvg, figure } from './svg.ts';
import { MARGIN_MM, OVERLAP_MM, type Tile, type Tiling, tilingOf } from './tiles.ts';

const HEADING_MM = 5;
const TEXT_MM = 2.6;
const LINE_MM = 4.3;
/** Width that the upright check bars take at the right of the first page, mm. */
const BARS_MM = 45;
/** Height that the level check bars take at the foot of the first page, mm. */
const FOOT_BARS_MM = 25;
/** Height of the texts in the foot of a page, mm. */
const FOOT_TEXT_MM = 2.2;

/**
 * A plate at true scale as a document for pdfmake: first what must be read, with the check bars, then the drawing, on as
 * many pages as it takes. Its fonts must have a font named Roboto. The same drawing, paper and date give the same bytes.
 */
export function templateDefinition(drawing: Drawing, paper: Paper, date: Date): TDocumentDefinitions {
  const tiling = tilingOf(drawing.shapeBox, paper);
  const pages = [
    ...readingPages(drawing, tiling, paper),
    ...tiling.tiles.map((tile, i) => tilePage(drawing, tiling, tile, i)),
  ];
  const [width, height] = PAPER_MM[paper].map((mm) => mm * POINTS_PER_MM);
  return {
    pageSize: { width, height },
    pageMargins: 0,
    defaultStyle: { font: 'Roboto' },
    info: { title: printable(drawing.heading), creationDate: date },
    content: pages.flatMap(({ lines, texts }, i) => [
      {
        svg: pageSvg(lines, paper),
        width,
        height,
        // Six decimals of a millimetre.
        options: { precision: 6 },
        absolutePosition: { x: 0, y: 0 },
        ...(i === 0 ? {} : { pageBreak: 'before' as const }),
      },
      ...texts.map(textNode),
    ]),
  };
}

/** A text on a page: the start, middle or end of its base line in mm from the top left corner. */
interface PageText extends Pick<Extract<Entity, { kind: 'text' }>, 'at' | 'heightMm' | 'text' | 'anchor'> {}

/** A page: its lines as SVG elements, in mm from its top left corner, and its texts. */
interface Page {
  lines: readonly string[];
  texts: readonly PageText[];
}

function pageSvg(lines: readonly string[], paper: Paper): string {
  const [width, height] = PAPER_MM[paper];
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">`,
    ...lines,
    '</svg>',
  ].join('\n');
}

/** Height of the font above the base line, of its size. From the tables of Roboto. */
const ASCENT = 1900 / 2048;
/** Width of the column in which a text is aligned, mm. */
const COLUMN_MM = 400;

/** Texts are nodes of their own: pdfmake finds no font of its own for the texts of an SVG. */
function textNode({ at: [x, y], heightMm, text, anchor }: PageText) {
  const fontSize = heightMm * CAP_TO_SIZE * POINTS_PER_MM;
  const start = x - (anchor === 'end' ? COLUMN_MM : anchor === 'middle' ? COLUMN_MM / 2 : 0);
  return {
    absolutePosition: { x: start * POINTS_PER_MM, y: y * POINTS_PER_MM - ASCENT * fontSize },
    columns: [
      {
        width: COLUMN_MM * POINTS_PER_MM,
        text: printable(text),
        fontSize,
        lineHeight: 1,
        noWrap: true,
        alignment:
          anchor === 'end'
            ? ('right' as const)
            : anchor === 'middle'
              ? ('center' as const)
              : ('left' as const),
      },
    ],
  };
}

/** The texts of a drawing on a page. */
const textsAt = (entities: readonly Entity[], map: (at: Point2) => Point2): PageText[] =>
  entities.flatMap((entity) => (entity.kind === 'text' ? [{ ...entity, at: map(entity.at) }] : []));

/** The lines of a drawing on a page. */
const linesAt = (entities: readonly Entity[], map: (at: Point2) => Point2): string[] =>
  entitiesSvg(entities.filter(({ kind }) => kind !== 'text').map(withoutArcs), map);

/** The heading, the sentences and the check bars, on one page or more. */
function readingPages(drawing: Drawing, tiling: Tiling, paper: Paper): Page[] {
  const [width, height] = PAPER_MM[paper];
  const column = width - 2 * MARGIN_MM - BARS_MM;
  const lines = [...howTo(tiling), ...textsOf(drawing)].flatMap((text) => wrapped(text, TEXT_MM, column));
  const perPage = Math.floor((height - 2 * MARGIN_MM - 2 * HEADING_MM - FOOT_BARS_MM) / LINE_MM);
  const pages = Math.max(1, Math.ceil(lines.length / perPage));
  return Array.from({ length: pages }, (_, i) => {
    const own = lines.slice(i * perPage, (i + 1) * perPage);
    const top = height - MARGIN_MM - HEADING_MM;
    const entities: Entity[] = [
      ...wrapped(drawing.heading, HEADING_MM, width - 2 * MARGIN_MM)
        .slice(0, 1)
        .map((text) => written([MARGIN_MM, top], HEADING_MM, text)),
      ...own.map((text, k) => written([MARGIN_MM, top - 2 * HEADING_MM - k * LINE_MM], TEXT_MM, text)),
      ...(i === 0
        ? [
            ...checkBars([MARGIN_MM + 2, MARGIN_MM + 12], [1, 0]),
            ...checkBars([width - MARGIN_MM - BARS_MM + 8, top - 2 * HEADING_MM - 101.6], [0, 1]),
          ]
        : []),
    ];
    const onPage = ([x, y]: Point2): Point2 => [x, height - y];
    return { lines: linesAt(entities, onPage), texts: textsAt(entities, onPage) };
  });
}

const written = (at: Point2, heightMm: number, text: string): Entity => ({
  kind: 'text',
  layer: 'TEXT',
  at,
  heightMm,
  text,
});

const howTo = ({ rows, columns, frameMm: [width, height] }: Tiling): string[] => [
  PRINT_SENTENCE,
  `The drawing is on ${rows * columns === 1 ? 'one page' : `${rows * columns} pages, ${rows} from top to bottom and ${columns} from left to right`}. Each has a frame of ${figure(width)} × ${figure(height)} mm: measure it as well.`,
  ...(rows * columns === 1
    ? []
    : [
        `Neighbouring pages overlap by ${OVERLAP_MM} mm. Cut one along its frame, lay it on the other until the match marks M1, M2 ... lie on each other, and tape them.`,
      ]),
];

/** One page of the drawing: its window in a frame, and a foot that names it. */
function tilePage(drawing: Drawing, tiling: Tiling, tile: Tile, index: number): Page {
  const [frameWidth, frameHeight] = tiling.frameMm;
  const { min, max } = tile.window;
  const inFrame = ([x, y]: Point2): Point2 => [MARGIN_MM + x - min[0], MARGIN_MM + max[1] - y];
  const frame = `x="${MARGIN_MM}" y="${MARGIN_MM}" width="${figure(frameWidth)}" height="${figure(frameHeight)}"`;
  const { rows, columns } = tiling;
  const foot = [
    `${drawing.heading}. Page ${index + 1} of ${rows * columns}: row ${tile.row} of ${rows}, column ${tile.column} of ${columns}.`,
    `Frame ${figure(frameWidth)} × ${figure(frameHeight)} mm at 100 %.`,
  ];
  const shown = [...drawing.shape, ...tiling.marks];
  const isShown = ({ at: [x, y] }: PageText) =>
    x >= MARGIN_MM && x <= MARGIN_MM + frameWidth && y >= MARGIN_MM && y <= MARGIN_MM + frameHeight;
  return {
    lines: [
      `<clipPath id="frame${index}"><rect ${frame}/></clipPath>`,
      `<g clip-path="url(#frame${index})">`,
      ...linesAt(shown, inFrame),
      '</g>',
      `<rect ${frame} fill="none" stroke="#000000" stroke-width="0.1"/>`,
    ],
    texts: [
      ...textsAt(shown, inFrame).filter(isShown),
      ...foot.map((text, k) => ({
        at: [MARGIN_MM, MARGIN_MM + frameHeight + 4 + 3.5 * k] as const,
        heightMm: FOOT_TEXT_MM,
        text: wrapped(text, FOOT_TEXT_MM, frameWidth)[0] ?? '',
      })),
    ],
  };
}

/** Chord error of round edges in a PDF, mm. It has no arcs, and the curves that stand for them are further off. */
const CHORD_MM = 0.0005;

/** The entity with its arcs as polygons. */
const withoutArcs = (entity: Entity): Entity =>
  entity.kind === 'loop'
    ? {
        ...entity,
        loop: {
          kind: 'path',
          corners: tessellated(entity.loop, CHORD_MM).map((at) => ({ at, bulge: 0 })),
        },
      }
    : entity;
