import type { Cut } from './cutsOf.ts';
import { boundsOf, type Point, type Sketch, type SketchDimension, wayOf } from './sketch.ts';

interface PartSketchProps {
  sketch: Sketch;
  /** Its cuts through the solids of the part. */
  cuts?: readonly Cut[];
  /** The focused field, as path under the part. */
  lit: string | undefined;
  /** The field's value as typed or assumed. */
  text: string;
  /** Size of the sketch in text heights: across and down. */
  room?: readonly [across: number, down: number];
}

/** Size in a sheet, where the sketch is low. */
const ROOM = [20, 10] as const;
const TICK = 0.3;

/** A part at scale with its dimensions as lines; the one of the focused field in layout blue with its value. */
export function PartSketch({ sketch, cuts = [], lit, text, room = ROOM }: PartSketchProps) {
  const [x0, x1, y0, y1] = boundsOf({ ...sketch, outlines: [...sketch.outlines, ...cuts.flat()] });
  const size = Math.max((x1 - x0) / room[0], (y1 - y0) / room[1]);
  const dimension = sketch.dimensions.find(({ field }) => field === lit);
  const [left, top] = [x0 - size, -y1 - 1.5 * size];
  const [width, height] = [x1 - x0 + 2 * size, y1 - y0 + 2.5 * size];
  return (
    <svg
      className="sketch"
      viewBox={`${left} ${top} ${width} ${height}`}
      role="img"
      aria-label={`${sketch.title}${dimension === undefined ? '' : `; ${text} is highlighted`}`}
    >
      {[...cuts, ...sketch.outlines.map((outline) => [outline])].map((outlines) => {
        const path = outlines.map((outline) => `${pathOf(outline)}Z`).join('');
        return <path key={path} className="sketch-outline" fillRule="evenodd" d={path} />;
      })}
      {sketch.axes.map((axis) => (
        <path key={pathOf(axis)} className="sketch-axis" d={pathOf(axis)} />
      ))}
      {sketch.dimensions.map((one) => (
        <path key={one.field} className="sketch-dimension" d={linesOf(one, TICK * size)} />
      ))}
      {dimension !== undefined && (
        <g className="sketch-lit" data-field={dimension.field}>
          <path d={linesOf(dimension, 2 * TICK * size)} />
          <text fontSize={1.1 * size} {...textPlace(dimension, size, left, left + width, text)}>
            {text}
          </text>
        </g>
      )}
    </svg>
  );
}

const at = ([x, y]: Point): string => `${x.toFixed(2)} ${(-y).toFixed(2)}`;
const pathOf = (points: readonly Point[]): string => `M${points.map(at).join('L')}`;

/** A dimension with a tick across each end. */
function linesOf(dimension: SketchDimension, tick: number): string {
  const way = wayOf(dimension);
  const tickAt = ([x, y]: Point, next: Point) => {
    const [dx, dy] = [next[0] - x, next[1] - y];
    const long = Math.hypot(dx, dy);
    // A zero dimension has no direction and gets a vertical tick.
    const [nx, ny] = long > 0 ? [(-dy / long) * tick, (dx / long) * tick] : [0, tick];
    return pathOf([
      [x - nx, y - ny],
      [x + nx, y + ny],
    ]);
  };
  const last = way.length - 1;
  return `${pathOf(way)}${tickAt(way[0], way[1])}${tickAt(way[last], way[last - 1])}`;
}

/** Above the middle of the dimension, within the drawing. */
function textPlace(dimension: SketchDimension, size: number, left: number, right: number, text: string) {
  const half = 0.38 * size * text.length;
  const { from, to, via } = dimension;
  const [x, y] = via?.[via.length >> 1] ?? [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  return {
    x: Math.max(left + half, Math.min(right - half, x)),
    y: -y - 0.45 * size,
    textAnchor: 'middle' as const,
  };
}
