import type { Point2 } from '../../solids/simplePolygon.ts';
import { type Box, CHECK_BARS, type Drawing, PRINT_SENTENCE, TEMPLATE_CAUTION, wrapped } from './drawing.ts';
import type { Entity, Layer } from './entity.ts';

/** A drawing with its texts and check bars below the plate, for a file with one sheet (DXF, SVG), mm, y up. */
export interface Sheet {
  entities: readonly Entity[];
  box: Box;
}

const HEADING_MM = 5;
const TEXT_MM = 3;
const LEADING = 1.6;
const GAP_MM = 10;
/** Least width of the texts, mm, so that their lines are not short below a narrow plate. */
const LEAST_WIDTH_MM = 190;
/** Half the height of the ticks at the ends of a check bar, mm. */
const TICK_MM = 2;

export function sheetOf(drawing: Drawing): Sheet {
  const { shape, shapeBox } = drawing;
  const [left] = shapeBox.min;
  const width = Math.max(shapeBox.max[0] - left, LEAST_WIDTH_MM);
  let y = shapeBox.min[1] - GAP_MM;
  const texts: Entity[] = [];
  const write = (text: string, heightMm: number) => {
    for (const line of wrapped(text, heightMm, width)) {
      y -= heightMm;
      texts.push({ kind: 'text', layer: 'TEXT', at: [left, y], heightMm, text: line });
      y -= heightMm * (LEADING - 1);
    }
  };
  write(drawing.heading, HEADING_MM);
  for (const text of [...textsOf(drawing), PRINT_SENTENCE]) write(text, TEXT_MM);
  const top = shapeBox.min[1] - GAP_MM;
  const bars = [
    ...checkBars([left, y - GAP_MM], [1, 0]),
    ...checkBars([left + width + GAP_MM, top - 101.6], [0, 1]),
  ];
  y = Math.min(y - 2 * GAP_MM - 8, top - 101.6);
  return {
    entities: [...shape, ...texts, ...bars],
    box: {
      min: [left - GAP_MM, y - GAP_MM],
      max: [left + width + 5 * GAP_MM, shapeBox.max[1] + GAP_MM],
    },
  };
}

/** The sentences of a drawing below its heading, those that matter most first. */
export const textsOf = ({ facts, warnings, holes, notes }: Drawing): string[] => [
  ...facts,
  ...warnings,
  ...holes,
  ...notes,
  TEMPLATE_CAUTION,
];

/** The two check bars along a direction, side by side, from a place: across and below it, or upright and to its right. */
export function checkBars([x, y]: Point2, [ux, uy]: Point2): Entity[] {
  return CHECK_BARS.flatMap(({ mm, label }, i) => {
    const from: Point2 = [x + uy * 18 * i, y - ux * 8 * i];
    const at: Point2 = ux > 0 ? [from[0] + mm + 3, from[1] - TEXT_MM / 2] : [from[0] + 1.5, from[1] + mm / 2];
    return [...bar(from, [ux, uy], mm), text(at, label, 'TEXT')];
  });
}

const text = (at: Point2, words: string, layer: Layer): Entity => ({
  kind: 'text',
  layer,
  at,
  heightMm: TEXT_MM,
  text: words,
});

function bar([x, y]: Point2, [ux, uy]: Point2, mm: number): Entity[] {
  const line = (from: Point2, to: Point2): Entity => ({ kind: 'line', layer: 'CHECK', from, to });
  const end: Point2 = [x + ux * mm, y + uy * mm];
  const tick = ([tx, ty]: Point2) =>
    line([tx - uy * TICK_MM, ty - ux * TICK_MM], [tx + uy * TICK_MM, ty + ux * TICK_MM]);
  return [line([x, y], end), tick([x, y]), tick(end)];
}
