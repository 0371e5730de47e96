import { tessellated } from '../../solids/flatPlates/loops.ts';
import type { Point2 } from '../../solids/simplePolygon.ts';
import { clipped } from '../drawings/clipped.ts';
import type { Box } from '../drawings/path.ts';
import type { Entity } from './entity.ts';

type Label = Extract<Entity, { kind: 'text' }>;

/** Width of a text of Helvetica or a like font as a fraction of its height, on the safe side. */
export const CHARACTER = 0.76;

/** The rectangle that a text covers, mm, with y up: `top` is its least y. */
export function labelBox({ at, heightMm, text, anchor }: Label): Box {
  const width = text.length * heightMm * CHARACTER;
  const left = at[0] - (anchor === 'end' ? width : anchor === 'middle' ? width / 2 : 0);
  return { left, top: at[1] - heightMm / 4, width, height: 1.25 * heightMm };
}

/** Error of an arc as a line, far below what can be seen, mm. */
const CHORD_MM = 0.1;

/** Gap between a label and what is around it, in heights of the label. */
const GAP = 0.35;

/** A label moves by up to this many of its heights, in this many directions. */
const MOST_HEIGHTS = 6;
const DIRECTIONS = 16;

/** Labels and lines, each label moved to the nearest place at which it covers no line and no earlier label. */
export function withFreeLabels(shape: readonly Entity[]): Entity[] {
  const lines = shape.flatMap((entity): (readonly [Point2, Point2])[] => {
    if (entity.kind === 'line') return [[entity.from, entity.to]];
    if (entity.kind === 'text') return [];
    const corners = tessellated(entity.loop, CHORD_MM);
    return corners.map((corner, i) => [corner, corners[(i + 1) % corners.length]]);
  });
  const taken: Box[] = [];
  const isFree = (label: Label) => {
    const box = withGap(labelBox(label), GAP * label.heightMm);
    return (
      !taken.some((other) => overlap(box, other)) && !lines.some((line) => clipped(line, box).length > 0)
    );
  };
  const placed = new Map<Entity, Label>();
  const place = (label: Label, at: Label | undefined) => {
    if (at === undefined) return;
    placed.set(label, at);
    taken.push(labelBox(at));
  };
  const labels = shape.filter((entity): entity is Label => entity.kind === 'text');
  // A label that moves must not come between another one and its line.
  for (const label of labels) place(label, isFree(label) ? label : undefined);
  for (const label of labels) if (!placed.has(label)) place(label, [...places(label)].find(isFree) ?? label);
  return shape.map((entity) => placed.get(entity) ?? entity);
}

/** The label further and further from its place. */
function* places(label: Label): Generator<Label> {
  for (let step = 1; step <= 2 * MOST_HEIGHTS; step++)
    for (let k = 0; k < DIRECTIONS; k++) {
      const angle = (2 * Math.PI * k) / DIRECTIONS;
      const far = (step / 2) * label.heightMm;
      yield {
        ...label,
        at: [label.at[0] + far * Math.cos(angle), label.at[1] + far * Math.sin(angle)],
      };
    }
}

const withGap = ({ left, top, width, height }: Box, gap: number): Box => ({
  left: left - gap,
  top: top - gap,
  width: width + 2 * gap,
  height: height + 2 * gap,
});

const overlap = (one: Box, other: Box): boolean =>
  one.left < other.left + other.width &&
  other.left < one.left + one.width &&
  one.top < other.top + other.height &&
  other.top < one.top + one.height;
