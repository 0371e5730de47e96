import type { Body } from '../clearance/body.ts';
import { prepareBody } from '../clearance/body.ts';
import type { Design } from '../design/design.ts';
import { DesignProblems } from '../design/problem.ts';
import type { Corner } from '../design/schema.ts';
import { tyreDimensions } from '../design/tyreSize.ts';
import type { TyreCircle } from '../mechanism/alignment.ts';
import { type Mechanism, prepareMechanism } from '../mechanism/mechanism.ts';
import { SolidMaker } from '../solids/catalogue.ts';
import type { Mesh, Solid, Zone } from '../solids/solid.ts';
import { axialStack, entries } from '../solids/wheelFrame.ts';
import { chordProblems } from './chordProblems.ts';
import { holdsJointOf } from './ownBolt.ts';
import type { Pair, UncheckedPair } from './pair.ts';
import { planPairs } from './pairs.ts';
import type { SweepSettings } from './result.ts';
import { stepsThroughZero } from './steps.ts';

/** A corner that is built: all that can be shown of it, and posed. */
export interface Built {
  design: Design;
  settings: SweepSettings;
  mechanism: Mechanism;
  solids: readonly Solid[];
  pairs: readonly Pair[];
  unchecked: readonly UncheckedPair[];
  travelMm: Float64Array;
  steer: Float64Array;
  tyre: TyreCircle;
}

/** A corner made ready to be measured. */
export interface Setup extends Built {
  /** The bodies of each pair, intended contact cut away. */
  bodies: readonly { a: Body; b: Body }[];
}

/** Circle of the unloaded tyre on the wheel as mounted; without a tyre one that reaches from the wheel centre to the ground. */
export function tyreCircle(corner: Corner): TyreCircle {
  const [tyre] = entries(corner, 'tyre');
  const [wheel] = entries(corner, 'wheel');
  return {
    radiusMm:
      tyre === undefined
        ? corner.suspension.hardpoints.wheelCentre[2]
        : tyreDimensions(tyre).overallDiameterMm / 2,
    planeMm: wheel === undefined ? 0 : axialStack(corner).rimCentreY(wheel),
  };
}

/** The mechanism of a corner, its damper the way round that the damper's entry says. */
export function mechanismOf(corner: Corner): Mechanism {
  const damper = entries(corner, 'damper')[0];
  return prepareMechanism(corner.suspension, { damperBodyEnd: damper?.bodyEnd ?? 'arm' });
}

/**
 * What of a solid is measured against another: its mesh, unless both turn with the wheel, where a part that is no body
 * of revolution stands still against the other. The chord error of what it sweeps includes its own. A joint's bolt is
 * measured without its ball against what holds the joint.
 */
export function meshBeside(
  solid: Solid,
  other: Pick<Solid, 'carrier'> & Partial<Pick<Solid, 'attachments'>>,
): { mesh: Mesh; chordErrorMm: number } {
  const { mesh, standing = mesh, withoutBall = mesh, chordErrorMm } = solid;
  if (holdsJointOf(other, solid)) return { mesh: withoutBall, chordErrorMm };
  return { mesh: other.carrier === 'wheel' ? standing : mesh, chordErrorMm };
}

/** What is kept from one corner to the next, so that only what a change concerns is made anew. */
export class SetupMemory {
  readonly maker = new SolidMaker();
  /** By mesh, then by zones. A mesh that no corner uses any more is forgotten with its bodies. */
  readonly bodies = new WeakMap<Mesh, Map<string, Body>>();
}

/**
 * Builds mechanism, solids and pairs of a design; from what `memory` holds of an earlier one, if given. Throws
 * DesignProblems with every problem that the geometry shows (a solid that cannot be built, an arm of no length).
 */
export async function buildCorner(
  design: Design,
  settings: SweepSettings,
  memory = new SetupMemory(),
): Promise<Built> {
  const { corner } = design;
  const tooCoarse = chordProblems(corner, settings.chordToleranceMm);
  if (tooCoarse.length > 0) throw new DesignProblems(tooCoarse);
  const mechanism = mechanismOf(corner);
  const solids = await memory.maker.make(corner, settings.chordToleranceMm);
  const { pairs, unchecked } = planPairs(corner, solids);
  const { travel } = corner.suspension;
  return {
    design,
    settings,
    mechanism,
    solids,
    pairs,
    unchecked,
    travelMm: stepsThroughZero(-travel.droop, travel.bump, settings.travelSteps),
    steer: stepsThroughZero(-1, 1, settings.steerSteps),
    tyre: tyreCircle(corner),
  };
}

/** Makes a corner that is built ready to be measured: cuts intended contact away and builds the search trees. */
export function withBodies(built: Built, memory = new SetupMemory()): Setup {
  const { solids, pairs } = built;
  const bodyOf = (index: number, other: number, zones: readonly Zone[]): Body => {
    const { mesh, chordErrorMm } = meshBeside(solids[index], solids[other]);
    const prepared = memory.bodies.get(mesh) ?? new Map<string, Body>();
    memory.bodies.set(mesh, prepared);
    const key = `${chordErrorMm} ${JSON.stringify(zones)}`;
    const known = prepared.get(key);
    if (known !== undefined) return known;
    const body = prepareBody(mesh, { zones, chordErrorMm });
    prepared.set(key, body);
    return body;
  };
  return {
    ...built,
    bodies: pairs.map(({ a, b, zones }) => ({ a: bodyOf(a, b, zones), b: bodyOf(b, a, zones) })),
  };
}

/** Builds the corner of a design and makes it ready to be measured; as `buildCorner` does, with what it throws. */
export const setUp = async (
  design: Design,
  settings: SweepSettings,
  memory = new SetupMemory(),
): Promise<Setup> => withBodies(await buildCorner(design, settings, memory), memory);
