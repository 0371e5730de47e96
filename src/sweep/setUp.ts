import type { Body } from '../clearance/body.ts';
import { prepareBody } from '../clearance/body.ts';
import type { Design } from '../design/design.ts';
import type { Corner } from '../design/schema.ts';
import { tyreDimensions } from '../design/tyreSize.ts';
import type { TyreCircle } from '../mechanism/alignment.ts';
import { type Mechanism, prepareMechanism } from '../mechanism/mechanism.ts';
import { type SolidChoice, SolidMaker } from '../solids/catalogue.ts';
import type { Mesh, Solid } from '../solids/solid.ts';
import { axialStack, entries } from '../solids/wheelFrame.ts';
import { DesignProblems } from '../units/problem.ts';
import { chordProblems } from './chordProblems.ts';
import { holdsJointOf } from './ownBolt.ts';
import type { Pair, UncheckedPair } from './pair.ts';
import { planPairs } from './pairs.ts';
import type { SweepSettings } from './result.ts';
import { stepsThroughZero } from './steps.ts';

/** A built corner: mechanism, solids, pairs and steps. */
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

/** A built corner with the bodies that clearances are measured between. */
export interface Setup extends Built {
  /** The two bodies of each pair, with zones of intended contact cut out. */
  bodies: readonly { a: Body; b: Body }[];
}

/**
 * Circle of the unloaded tyre on the mounted wheel. Without a tyre, a circle that reaches from the wheel centre to
 * the ground.
 */
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

/** The mechanism of a corner, with the damper's orientation from its entry. */
export function mechanismOf(corner: Corner): Mechanism {
  const damper = entries(corner, 'damper')[0];
  return prepareMechanism(corner.suspension, { damperBodyEnd: damper?.bodyEnd ?? 'arm' });
}

/**
 * The mesh of `solid` that is measured against `other`, with its chord error. Parts that spin with the wheel are
 * meshed as the body that they sweep. Two parts that both spin do not move relative to each other, so the mesh at
 * rest is used. A joint's bolt is measured without its ball against the part that holds the joint.
 */
export function meshBeside(
  solid: Solid,
  other: Pick<Solid, 'carrier'> & Partial<Pick<Solid, 'attachments'>>,
): { mesh: Mesh; chordErrorMm: number } {
  const { mesh, unswept = mesh, withoutBall = mesh, chordErrorMm } = solid;
  if (holdsJointOf(other, solid)) return { mesh: withoutBall, chordErrorMm };
  return { mesh: other.carrier === 'wheel' ? unswept : mesh, chordErrorMm };
}

/** Cache of solids and bodies, reused for the next corner where a change does not affect them. */
export class SetupMemory {
  readonly maker: SolidMaker;
  /** Bodies by mesh, then by zones. An entry is freed with its mesh. */
  readonly bodies = new WeakMap<Mesh, Map<string, Body>>();
  private readonly base: SetupMemory | undefined;

  /**
   * `base`: what it holds of its last corner is reused too, however many corners follow. `maker`: of an earlier memory with the
   * same base, to reuse its solids without its bodies.
   */
  constructor(base?: SetupMemory, maker = new SolidMaker(base?.maker)) {
    this.base = base;
    this.maker = maker;
  }

  /** The body of a mesh by a key of its zones and chord error; made if neither this memory nor its base holds it. */
  bodyOf(mesh: Mesh, key: string, make: () => Body): Body {
    const known = this.bodies.get(mesh)?.get(key) ?? this.base?.bodies.get(mesh)?.get(key);
    if (known !== undefined) return known;
    const body = make();
    const own = this.bodies.get(mesh) ?? new Map<string, Body>();
    own.set(key, body);
    this.bodies.set(mesh, own);
    return body;
  }
}

/**
 * Builds mechanism, solids and pairs of a design, reusing `memory` where possible. Throws DesignProblems with every
 * problem that shows in the geometry (a solid that cannot be built, an arm of zero length). `choice`: which
 * solids are built; the others have no pairs.
 */
export async function buildCorner(
  design: Design,
  settings: SweepSettings,
  memory = new SetupMemory(),
  choice?: SolidChoice,
): Promise<Built> {
  const { corner } = design;
  const tooCoarse = chordProblems(corner, settings.chordToleranceMm);
  if (tooCoarse.length > 0) throw new DesignProblems(tooCoarse);
  const mechanism = mechanismOf(corner);
  const solids = await memory.maker.make(corner, settings.chordToleranceMm, choice);
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

/** One of the two bodies of a pair, by the pair's index. */
export interface BodySlot {
  pair: number;
  side: 'a' | 'b';
}

/** Mesh and chord error of a slot's body. */
const measuredOf = ({ solids, pairs }: Built, { pair, side }: BodySlot) =>
  meshBeside(solids[pairs[pair][side]], solids[pairs[pair][side === 'a' ? 'b' : 'a']]);

/**
 * Groups the bodies of all pairs by mesh, the largest mesh first. Bodies of one mesh share its search tree, so build
 * a whole group on one worker.
 */
export function bodySlots(built: Built): BodySlot[][] {
  const groups = new Map<Mesh, BodySlot[]>();
  built.pairs.forEach((_, pair) => {
    for (const side of ['a', 'b'] as const) {
      const { mesh } = measuredOf(built, { pair, side });
      const group = groups.get(mesh) ?? [];
      groups.set(mesh, group);
      group.push({ pair, side });
    }
  });
  return [...groups]
    .sort(([one], [other]) => other.triangles.length - one.triangles.length)
    .map(([, group]) => group);
}

/**
 * Builds bodies: cuts zones of intended contact out of the meshes and builds the search trees. Reuses bodies from
 * `memory`. `fastBuild`: see `BodyOptions`.
 */
export function makeBodies(
  built: Built,
  slots: readonly BodySlot[],
  memory = new SetupMemory(),
  fastBuild = false,
): readonly Body[] {
  return slots.map((slot) => {
    const { mesh, chordErrorMm } = measuredOf(built, slot);
    const { zones } = built.pairs[slot.pair];
    return memory.bodyOf(mesh, `${chordErrorMm} ${JSON.stringify(zones)}`, () =>
      prepareBody(mesh, { zones, chordErrorMm, fastBuild }),
    );
  });
}

/** Builds all bodies of a corner. `fastBuild`: see `BodyOptions`. */
export function withBodies(built: Built, memory = new SetupMemory(), fastBuild = false): Setup {
  const slots = built.pairs.flatMap((_, pair) => [
    { pair, side: 'a' as const },
    { pair, side: 'b' as const },
  ]);
  const bodies = makeBodies(built, slots, memory, fastBuild);
  return {
    ...built,
    bodies: built.pairs.map((_, pair) => ({ a: bodies[2 * pair], b: bodies[2 * pair + 1] })),
  };
}

/** Builds the corner of a design with all its bodies. Throws as `buildCorner` does. */
export const setUp = async (
  design: Design,
  settings: SweepSettings,
  memory = new SetupMemory(),
): Promise<Setup> => withBodies(await buildCorner(design, settings, memory), memory);
