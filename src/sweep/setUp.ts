import type { Body } from '../clearance/body.ts';
import { prepareBody } from '../clearance/body.ts';
import type { Design } from '../design/design.ts';
import type { Corner } from '../design/schema.ts';
import { readTyreSize } from '../design/tyreSize.ts';
import { type Mechanism, prepareMechanism } from '../mechanism/mechanism.ts';
import { buildSolids } from '../solids/catalogue.ts';
import type { Solid, Zone } from '../solids/solid.ts';
import { entries } from '../solids/wheelFrame.ts';
import type { Pair, UncheckedPair } from './pair.ts';
import { planPairs } from './pairs.ts';
import type { SweepSettings } from './result.ts';
import { stepsThroughZero } from './steps.ts';

/** A corner made ready to be posed and measured. */
export interface Setup {
  design: Design;
  settings: SweepSettings;
  mechanism: Mechanism;
  solids: readonly Solid[];
  pairs: readonly Pair[];
  unchecked: readonly UncheckedPair[];
  /** The bodies of each pair, intended contact cut away. */
  bodies: readonly { a: Body; b: Body }[];
  travelMm: Float64Array;
  steer: Float64Array;
  /** Unloaded radius of the tyre; height of the wheel centre where there is no tyre. */
  tyreRadiusMm: number;
}

export function tyreRadiusMm(corner: Corner): number {
  const tyre = entries(corner, 'tyre')[0];
  if (tyre === undefined) return corner.suspension.hardpoints.wheelCentre[2];
  return (tyre.overallDiameter ?? readTyreSize(tyre.designation).overallDiameterMm) / 2;
}

/** The mechanism of a corner, its damper the way round that the damper's entry says. */
export function mechanismOf(corner: Corner): Mechanism {
  const damper = entries(corner, 'damper')[0];
  return prepareMechanism(corner.suspension, { damperBodyEnd: damper?.bodyEnd ?? 'arm' });
}

/**
 * Builds mechanism, solids, pairs and search trees of a design. Throws DesignProblems with every problem that the
 * geometry shows (a solid that cannot be built, an arm of no length).
 */
export async function setUp(design: Design, settings: SweepSettings): Promise<Setup> {
  const { corner } = design;
  const mechanism = mechanismOf(corner);
  const solids = await buildSolids(corner, settings.chordToleranceMm);
  const { pairs, unchecked } = planPairs(corner, solids);
  const { travel } = corner.suspension;
  const prepared = new Map<string, Body>();
  const bodyOf = (index: number, zones: readonly Zone[]): Body => {
    const key = `${index} ${JSON.stringify(zones)}`;
    const known = prepared.get(key);
    if (known !== undefined) return known;
    const body = prepareBody(solids[index].mesh, { zones, chordErrorMm: solids[index].chordErrorMm });
    prepared.set(key, body);
    return body;
  };
  return {
    design,
    settings,
    mechanism,
    solids,
    pairs,
    unchecked,
    bodies: pairs.map(({ a, b, zones }) => ({ a: bodyOf(a, zones), b: bodyOf(b, zones) })),
    travelMm: stepsThroughZero(-travel.droop, travel.bump, settings.travelSteps),
    steer: stepsThroughZero(-1, 1, settings.steerSteps),
    tyreRadiusMm: tyreRadiusMm(corner),
  };
}
