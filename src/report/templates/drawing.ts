import type { FlatPlate } from '../../solids/flatPlates/flatPlate.ts';
import { loopBox } from '../../solids/flatPlates/loops.ts';
import type { Point2 } from '../../solids/simplePolygon.ts';
import { visible } from '../../units/plainText.ts';
import { decimal, type Figures } from '../figures.ts';
import { type Cutting, cuttingWarnings, kerfNote } from './cutting.ts';
import type { Entity } from './entity.ts';
import { CHARACTER, labelBox, withFreeLabels } from './labels.ts';

export interface Box {
  min: Point2;
  max: Point2;
}

/** A plate as a drawing at true scale: y up, millimetres. */
export interface Drawing {
  plate: FlatPlate;
  /** Lines and labels of the plate itself. */
  shape: readonly Entity[];
  shapeBox: Box;
  /** What a person must read, one paragraph each: sizes, holes, notes, cautions. */
  heading: string;
  facts: readonly string[];
  holes: readonly string[];
  warnings: readonly string[];
  notes: readonly string[];
}

/** Height of the labels at holes and lines, mm. */
const LABEL_MM = 3;

/** Lengths of the bars with which a print is checked, mm: 100 mm and 4 in. */
export const CHECK_BARS = [
  { mm: 100, label: '100 mm' },
  { mm: 101.6, label: '4 in' },
] as const;

export const PRINT_SENTENCE =
  'Print at 100 % (actual size, no fitting to the page). Before you use the template, measure the check bars in both directions: 100 mm and 4 in.';

export const TEMPLATE_CAUTION =
  'A template covers shape alone, not strength, welds or safety. Check it against the real parts before metal is cut. Local vehicle code comes first; where the law or the risk requires it, have a licensed engineer or certifier approve the part and a certified welder do the welding.';

/** Half the length of a centre mark beyond its hole, and of the cross of a point, mm. */
const CROSS_MM = 4;

/** The drawing of a plate. Lengths in its sentences are in the unit of `figures`. */
export function drawingOf(plate: FlatPlate, cutting: Cutting, figures: Figures): Drawing {
  const { outline, openings, holes, marks, bends } = plate;
  const shape = withFreeLabels([
    { kind: 'loop', layer: 'CUT', loop: outline },
    ...openings.map(({ loop }): Entity => ({ kind: 'loop', layer: 'CUT', loop })),
    ...openings.flatMap(({ loop, use }) =>
      loop.kind === 'circle' ? [labelIn(loop.centre, loop.radiusMm, visible(use))] : [],
    ),
    ...holes.flatMap(({ at, boltMm, cut }, i): Entity[] => {
      const radiusMm = (cut.diameterMm ?? boltMm) / 2;
      const isCut = cut.diameterMm !== undefined;
      return [
        { kind: 'loop', layer: isCut ? 'CUT' : 'MARK', loop: { kind: 'circle', centre: at, radiusMm } },
        ...crossAt(at, radiusMm + CROSS_MM),
        labelAt(at, radiusMm * Math.SQRT1_2, `${i + 1}`),
      ];
    }),
    ...marks.flatMap(({ at: [from, to], label }): Entity[] =>
      to === undefined
        ? [...crossAt(from, CROSS_MM), labelAt(from, CROSS_MM / 2, visible(label))]
        : [{ kind: 'line', layer: 'MARK', from, to }, labelBeyond(from, to, visible(label))],
    ),
    ...bends.flatMap(({ from, to, angleDeg }): Entity[] => [
      { kind: 'line', layer: 'BEND', from, to },
      labelBeyond(from, to, bendText(angleDeg)),
    ]),
  ]);
  const box = loopBox(outline);
  const [width, height] = [box.max[0] - box.min[0], box.max[1] - box.min[1]];
  return {
    plate,
    shape,
    shapeBox: withLabels(box, shape),
    heading: visible(plate.name),
    facts: [
      `Thickness ${figures.givenWithUnit(plate.thicknessMm)}. Quantity ${plate.quantity}. Outline ${figures.givenWithUnit(width)} × ${figures.givenWithUnit(height)}.`,
      `Side up: ${plate.sideUp}.`,
      ...bends.map(
        (bend, i) =>
          `Bend ${i + 1}: ${bendText(bend.angleDeg)}, on the bend line, ${figures.givenWithUnit(
            Math.hypot(bend.to[0] - bend.from[0], bend.to[1] - bend.from[1]),
          )} long.`,
      ),
    ].map(visible),
    holes: holeLines(plate, figures),
    warnings: cuttingWarnings(plate, cutting, figures).map((warning) => `Warning: ${visible(warning)}`),
    notes: [...plate.notes, kerfNote(cutting, figures)].map(visible),
  };
}

/** `fold 12.3° up`: toward the side that is up. */
const bendText = (angleDeg: number): string =>
  `fold ${decimal(Math.abs(angleDeg), 1)}° ${angleDeg < 0 ? 'down' : 'up'}`;

/** Sizes and uses of openings and holes, each kind once, and their places from the origin of the drawing. */
function holeLines({ holes, openings, origin }: FlatPlate, figures: Figures): string[] {
  const coordinate = (mm: number) => decimal(mm / perUnit(figures), placeDecimals(figures));
  const place = ([x, y]: Point2) => `x ${coordinate(x)}, y ${coordinate(y)}`;
  const kinds = new Map<string, number[]>();
  holes.forEach(({ use, boltMm, cut }, i) => {
    const size =
      cut.diameterMm === undefined
        ? `for a bolt of ${figures.givenWithUnit(boltMm)}; marked, not cut: ${cut.why}`
        : `${figures.givenWithUnit(cut.diameterMm)} across (${cut.from}).`;
    const words = `${use}, ${size}`;
    kinds.set(words, [...(kinds.get(words) ?? []), i]);
  });
  return [
    ...openings.map(({ loop, use }) =>
      loop.kind === 'circle' ? `Opening: ${use}, at ${place(loop.centre)}.` : `Opening: ${use}.`,
    ),
    ...[...kinds].flatMap(([words, which]) => [
      `${which.length === 1 ? 'Hole' : 'Holes'} ${which.map((i) => i + 1).join(', ')}: ${words}`,
      `${which.map((i) => `${i + 1}: ${place(holes[i].at)}`).join('; ')}.`,
    ]),
    ...(openings.length + holes.length > 0
      ? [
          `Places are in ${figures.unitName} from the origin: ${origin}. x is to the right, y is up on this drawing.`,
        ]
      : []),
  ].map(visible);
}

const perUnit = ({ unit }: Figures): number => (unit === 'mm' ? 1 : 25.4);
/** Places are as fine as a cut needs: 0.01 mm, 0.001 in. */
const placeDecimals = ({ unit }: Figures): number => (unit === 'mm' ? 2 : 3);

/** A cross of two lines through a point. */
function crossAt([x, y]: Point2, halfMm: number): Entity[] {
  return [
    { kind: 'line', layer: 'MARK', from: [x - halfMm, y], to: [x + halfMm, y] },
    { kind: 'line', layer: 'MARK', from: [x, y - halfMm], to: [x, y + halfMm] },
  ];
}

/** A label up and to the right of a point. */
const labelAt = ([x, y]: Point2, offMm: number, text: string): Entity => ({
  kind: 'text',
  layer: 'TEXT',
  at: [x + offMm + 1, y + offMm + 1],
  heightMm: LABEL_MM,
  text,
});

/** A label in the lower half of a round opening. */
const labelIn = ([x, y]: Point2, radiusMm: number, text: string): Entity => ({
  kind: 'text',
  layer: 'TEXT',
  at: [x, y - radiusMm / 2],
  heightMm: LABEL_MM,
  text,
  anchor: 'middle',
});

/** A label beyond the end of a line. */
function labelBeyond(from: Point2, to: Point2, text: string): Entity {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1;
  const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const isUpright = Math.abs(uy) > Math.abs(ux);
  return {
    kind: 'text',
    layer: 'TEXT',
    at: [to[0] + ux * 2, to[1] + uy * 2 - LABEL_MM * (isUpright ? (uy > 0 ? 0 : 1) : 0.5)],
    heightMm: LABEL_MM,
    text,
    ...(isUpright ? { anchor: 'middle' } : ux < 0 ? { anchor: 'end' } : {}),
  };
}

function boxOf(points: readonly Point2[]): Box {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return { min: [Math.min(...xs), Math.min(...ys)], max: [Math.max(...xs), Math.max(...ys)] };
}

const withLabels = (box: Box, shape: readonly Entity[]): Box =>
  boxOf([
    box.min,
    box.max,
    ...shape.flatMap((entity): Point2[] => {
      if (entity.kind === 'line') return [entity.from, entity.to];
      if (entity.kind === 'loop') return Object.values(loopBox(entity.loop));
      const { left, top, width, height } = labelBox(entity);
      return [
        [left, top],
        [left + width, top + height],
      ];
    }),
  ]);

/** A text in lines no wider than a width. */
export function wrapped(text: string, heightMm: number, widthMm: number): string[] {
  const most = Math.max(10, Math.floor(widthMm / (heightMm * CHARACTER)));
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ').flatMap((one) => one.match(new RegExp(`.{1,${most}}`, 'gsu')) ?? [])) {
    if (line !== '' && line.length + 1 + word.length > most) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return line === '' ? lines : [...lines, line];
}
