import type { Entry } from '../../../../design/schema.ts';
import { cos, sin } from '../../../../math/sine.ts';
import { degToRad } from '../../../../units/angle.ts';
import {
  ASIDE,
  across,
  arc,
  bar,
  type Point,
  rectangle,
  type Sketch,
  type SketchDimension,
  squareTo,
  turn,
} from './sketch.ts';

type Piece = Pick<Sketch, 'outlines' | 'dimensions'>;

const NOTHING: Piece = { outlines: [], dimensions: [] };

/** A dimension outward from the wheel axis, in the view along it. */
export const radial = (field: string, to: Point, out = 0): SketchDimension => ({
  field,
  from: [0, 0],
  to,
  out,
});

/** A dimension in the cut beside that view. */
export const inCut = (dimension: SketchDimension, out = 0): SketchDimension => ({
  ...dimension,
  view: 1,
  out,
});

/**
 * The bracket of a caliper in both views of its sketch: along the wheel axis at the ears' inboard face, and in the cut, where
 * the rotor's inboard face is at x = `face`. `bolt`: the mounting bolt at +x.
 */
export function bracketPiece({ bracket, mount }: Entry<'caliper'>, bolt: Point, face: number): Piece {
  if (bracket === undefined) return NOTHING;
  const { thickness, inset, innerRadius, width } = bracket;
  const ear = mount.earDiameter / 2;
  const earFace = face + mount.earFace;
  const [near, far] = [earFace + inset, earFace + inset + thickness];
  const foot: Point[] = [
    [-width / 2, innerRadius],
    [width / 2, innerRadius],
  ];
  return {
    outlines: [
      [...foot, ...arc(bolt, ear, Math.PI / 2, 0), ...arc([-bolt[0], bolt[1]], ear, 0, -Math.PI / 2)],
      rectangle(near, far, innerRadius, bolt[1] + ear),
    ],
    dimensions: [
      inCut(across('bracket.thickness', near, far, innerRadius + ASIDE)),
      inCut(across('bracket.inset', earFace, near, bolt[1] - ear), bolt[0]),
      radial('bracket.innerRadius', [0, innerRadius], inset),
      { ...across('bracket.width', -width / 2, width / 2, innerRadius), out: inset },
    ],
  };
}

/** The bleed screw of a caliper in the same two views. */
export function bleedScrewPiece({ bleedScrew, mount }: Entry<'caliper'>, face: number): Piece {
  if (bleedScrew === undefined) return NOTHING;
  const { along, radius, depth, directionDeg, length, diameter } = bleedScrew;
  const out = depth - mount.earFace;
  const direction = degToRad(directionDeg);
  const seat: Point = [-along, Math.sqrt(radius ** 2 - along ** 2)];
  const tip: Point = [seat[0] - length * sin(direction), seat[1] + length * cos(direction)];
  return {
    outlines: [
      bar(seat, tip, diameter),
      rectangle(
        face + depth - diameter / 2,
        face + depth + diameter / 2,
        Math.min(seat[1], tip[1]) - (diameter / 2) * Math.abs(sin(direction)),
        Math.max(seat[1], tip[1]) + (diameter / 2) * Math.abs(sin(direction)),
      ),
    ],
    dimensions: [
      { ...across('bleedScrew.along', 0, seat[0], seat[1]), out },
      radial('bleedScrew.radius', seat, out),
      inCut(across('bleedScrew.depth', face, face + depth, seat[1]), along),
      { ...turn('bleedScrew.directionDeg', seat, length / 2, [0, -direction]), out },
      { field: 'bleedScrew.length', from: seat, to: tip, out },
      { ...squareTo('bleedScrew.diameter', seat, tip, diameter, 1), out },
    ],
  };
}
