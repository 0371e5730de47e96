import type { Design } from '../../design/design.ts';
import type { Corner, PartEntry } from '../../design/schema.ts';
import type { Layout } from '../../layouts/layout.ts';
import { layoutOf } from '../../layouts/layoutOf.ts';
import { cross, normalize, type Vec3 } from '../../math/vec.ts';
import { alignmentAt, type TyreCircle, type WheelPlace, wheelPlace } from '../../mechanism/alignment.ts';
import { solvePose } from '../../mechanism/mechanism.ts';
import type { Alignment, Carriers } from '../../mechanism/pose.ts';
import { mechanismOf, tyreCircle } from '../../sweep/setUp.ts';

/** Source of the dimensions of a corner's drawings: the left corner at ride height, straight ahead. */
export interface CornerFacts {
  corner: Corner;
  layout: Layout;
  carriers: Carriers;
  alignment: Alignment;
  wheel: WheelPlace;
  tyre: TyreCircle;
  /** Level unit vectors square to the wheel's heading, and along it. */
  outboard: Vec3;
  forward: Vec3;
  /** Whether a value at or below one of the paths of the file is assumed. */
  isAssumed(...paths: string[]): boolean;
  /** Path of a part's field in the file. */
  fieldOf(part: PartEntry, field: string): string;
}

/** Whether a path of the file is another one, or below it. */
const isWithin = (path: string, other: string): boolean =>
  path === other || path.startsWith(`${other}.`) || path.startsWith(`${other}[`);

/** The facts of a design. Throws DesignProblems if its suspension makes no mechanism. */
export function cornerFacts({ corner, inputs }: Design): CornerFacts {
  const mechanism = mechanismOf(corner);
  const pose = solvePose(mechanism, 0, 0);
  if (pose.kind !== 'solved') throw new Error(`the suspension does not reach ride height: ${pose.reason}`);
  const tyre = tyreCircle(corner);
  const wheel = wheelPlace(mechanism, pose, tyre);
  const forward = normalize(cross(wheel.spin, [0, 0, 1]));
  const assumed = inputs.filter((input) => input.assumed).map(({ path }) => path);
  return {
    corner,
    layout: layoutOf(corner.suspension),
    carriers: pose.carriers,
    alignment: alignmentAt(mechanism, pose, tyre),
    wheel,
    tyre,
    forward,
    outboard: cross([0, 0, 1], forward),
    isAssumed: (...paths) => paths.some((path) => assumed.some((one) => isWithin(one, path))),
    fieldOf: (part, field) => `parts[${corner.parts.indexOf(part)}].${field}`,
  };
}
