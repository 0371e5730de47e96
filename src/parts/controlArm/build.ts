import type { Entry } from '../../design/schema.ts';
import { layoutOf } from '../../layouts/layoutOf.ts';
import { fromAxes, translation } from '../../math/rigid.ts';
import {
  addScaled,
  cross,
  distance,
  dot,
  length,
  lerp,
  normalize,
  scale,
  sub,
  type Vec3,
} from '../../math/vec.ts';
import type { BuildContext, Builder } from '../../solids/build.ts';
import { housingAxis, jointEntry } from '../../solids/jointPlace.ts';
import { type Manifold, matrix16, rod } from '../../solids/modeller.ts';
import { placed, worstChordMm } from '../../solids/place.ts';
import type { Attachment } from '../../solids/solid.ts';

const ORIGIN: Vec3 = [0, 0, 0];
const UP: Vec3 = [0, 0, 1];

/** Length of the bore through a cup, as a multiple of the cup's height: beyond tubes and gussets that stick out of the cup. */
const BORE_THROUGH = 3;

/** How deep a rod end's shank is screwed into its tube. Common practice, no source. */
const SCREWED_IN_MM = 10;

/** Distance from the centre of a joint at a pivot to the start of the arm's tube, mm. */
const tubeStartMm = ({ form, shankLength, housingDiameter }: Entry<'joint'>): number =>
  form === 'rodEnd' && shankLength !== undefined
    ? Math.max(shankLength - SCREWED_IN_MM, housingDiameter / 2)
    : 0.45 * housingDiameter;

/**
 * A control arm of round tubes, from a barrel at each inner pivot to the cup of the outer joint, with brace and gusset if
 * given. All pieces are solid: only their outside matters. Tubes end square inside the cup and on the axis of the barrels.
 * If the file has a joint at a pivot, the joint replaces the barrel, and the tube begins at its shank or housing. If it has
 * one at the outer end, the cup is along its housing and is bored as wide as its ball. Throws an Error if the three points
 * do not make an arm.
 */
export const buildControlArm: Builder<Entry<'controlArm'>> = (entry, context) => {
  const { corner, chordToleranceMm } = context;
  const { front, rear, joint: outer, carrier } = layoutOf(corner.suspension).arms[entry.arm];
  const { hardpoints } = corner.suspension;
  const joint = hardpoints[outer];
  // Relative to the outer joint from here on, since the modeller's rounding is least near the origin.
  const pivots: [Vec3, Vec3] = [sub(hardpoints[front], joint), sub(hardpoints[rear], joint)];
  checkArm(entry, pivots, [front, rear, outer]);

  const outerJoint = jointEntry(corner, outer);
  const cupAxis = outerJoint === undefined ? UP : housingAxis(corner, outerJoint);
  const pivotLine = normalize(sub(pivots[1], pivots[0]));
  const round = (from: Vec3, to: Vec3, diameter: number) =>
    rod(context.modeller, from, to, diameter / 2, chordToleranceMm);
  const across = (centre: Vec3, axis: Vec3, width: number, diameter: number) =>
    round(addScaled(centre, axis, -width / 2), addScaled(centre, axis, width / 2), diameter);

  const pieces: Manifold[] = [across(ORIGIN, cupAxis, entry.cupHeight, entry.cupDiameter)];
  const radii = [entry.cupDiameter / 2, entry.pivotDiameter / 2, entry.tubeDiameter / 2];
  for (const [i, pivot] of pivots.entries()) {
    const joint = jointEntry(corner, i === 0 ? front : rear);
    if (joint === undefined) pieces.push(across(pivot, pivotLine, entry.pivotLength, entry.pivotDiameter));
    const start = addScaled(pivot, normalize(pivot), -(joint === undefined ? 0 : tubeStartMm(joint)));
    pieces.push(round(start, insideCup(entry, cupAxis, pivot), entry.tubeDiameter));
  }
  if (entry.brace !== undefined) {
    const [from, to] = pivots.map((pivot) => lerp(pivot, ORIGIN, entry.brace!.at));
    pieces.push(round(from, to, entry.brace.diameter));
    radii.push(entry.brace.diameter / 2);
  }
  if (entry.gusset !== undefined) pieces.push(gusset(entry.gusset, pivots, context));

  const { damper } = corner.suspension;
  const attachments: Attachment[] = [outer, front, rear].map((name) => ({ name, at: hardpoints[name] }));
  if (damper?.on === carrier) attachments.push({ name: 'damperArm', at: damper.armMount });
  const drawn = context.modeller.Manifold.union(pieces);
  if (outerJoint !== undefined) radii.push(outerJoint.ballDiameter / 2);
  return [
    {
      id: entry.id,
      kind: 'controlArm',
      carrier,
      attachments,
      ...placed(
        outerJoint === undefined
          ? drawn
          : drawn.subtract(across(ORIGIN, cupAxis, BORE_THROUGH * entry.cupHeight, outerJoint.ballDiameter)),
        translation(joint),
        worstChordMm(radii, chordToleranceMm),
      ),
    },
  ];
};

/** Throws if no arm can be made between the points, which are relative to the outer joint. */
function checkArm(entry: Entry<'controlArm'>, pivots: [Vec3, Vec3], names: readonly string[]): void {
  const [front, rear, outer] = names;
  if (distance(...pivots) === 0) {
    throw new Error(`${front} and ${rear} are the same point: the arm has no pivot line`);
  }
  for (const [i, pivot] of pivots.entries()) {
    const least = (entry.cupDiameter + entry.pivotDiameter) / 2;
    if (length(pivot) <= least) {
      throw new Error(
        `${names[i]} is ${length(pivot).toFixed(1)} mm from ${outer}: half of cupDiameter and half of ` +
          `pivotDiameter take up ${least.toFixed(1)} mm, which leaves no arm`,
      );
    }
    if (entry.gusset !== undefined && entry.gusset.length >= length(pivot)) {
      throw new Error(
        `gusset.length ${entry.gusset.length} mm is longer than the tube to ${names[i]}, ` +
          `${length(pivot).toFixed(1)} mm`,
      );
    }
  }
  // Less than a thousandth of the arm's length off the line: three points in line, except for rounding.
  const across = length(cross(...pivots)) / (length(pivots[0]) * length(pivots[1]));
  if (across < 1e-3) throw new Error(`${front}, ${rear} and ${outer} lie in one line: they make no arm`);
}

/** End of the tube from `pivot`: on its axis, four fifths of the way from the cup's centre to the cup's surface. */
function insideCup(entry: Entry<'controlArm'>, bolt: Vec3, pivot: Vec3): Vec3 {
  const toPivot = normalize(pivot);
  const alongBolt = Math.abs(dot(toPivot, bolt));
  const squareToBolt = Math.sqrt(Math.max(0, 1 - alongBolt ** 2));
  const toSurface = Math.min(
    alongBolt > 0 ? entry.cupHeight / 2 / alongBolt : Infinity,
    squareToBolt > 0 ? entry.cupDiameter / 2 / squareToBolt : Infinity,
  );
  return scale(toPivot, 0.8 * toSurface);
}

/** A triangular plate between both tubes at the outer joint, half its thickness to each side of the arm's plane. */
function gusset(
  { thickness, length: side }: NonNullable<Entry<'controlArm'>['gusset']>,
  pivots: [Vec3, Vec3],
  { modeller }: BuildContext,
): Manifold {
  const [x, other] = [normalize(pivots[0]), normalize(pivots[1])];
  const z = normalize(cross(x, other));
  const y = cross(z, x);
  const triangle: [number, number][] = [
    [0, 0],
    [side, 0],
    [side * dot(other, x), side * dot(other, y)],
  ];
  const origin = scale(z, -thickness / 2);
  return modeller.Manifold.extrude([triangle], thickness).transform(matrix16(fromAxes(x, y, z, origin)));
}
