import { CARRIERS, type Carrier } from '../design/schema.ts';
import { encloseAssembly } from '../mechanism/enclosure.ts';
import { type CarrierEnclosures, encloseCarriers } from '../mechanism/enclosureCarriers.ts';
import { type Mechanism, rackAt } from '../mechanism/linkage.ts';
import { wayTo } from '../mechanism/solvePose.ts';
import { isKnown, RelativeMotion } from './proveMotion.ts';

/** Travel and steer about a middle, on one side of straight ahead. */
export interface Span {
  travelMm: number;
  travelHalfMm: number;
  steer: number;
  steerHalf: number;
}

/** The poses of a span, all of them at once. All that is asked of it is kept. */
export class PoseSpan {
  readonly travelMm: number;
  readonly travelHalfMm: number;
  readonly steer: number;
  readonly steerHalf: number;
  /** Every carrier over the span; undefined where it cannot be shown that the mechanism runs on all over it. */
  readonly carriers: CarrierEnclosures | undefined;
  private readonly motions = new Map<string, RelativeMotion>();

  constructor(mechanism: Mechanism, span: Span) {
    this.travelMm = span.travelMm;
    this.travelHalfMm = span.travelHalfMm;
    this.steer = span.steer;
    this.steerHalf = span.steerHalf;
    this.carriers = enclose(mechanism, span);
  }

  /** Of the carrier `mover` in the frame of `fixed`. Throws an Error where the carriers are not enclosed. */
  motion(fixed: Carrier, mover: Carrier): RelativeMotion {
    const key = `${fixed} ${mover}`;
    const known = this.motions.get(key);
    if (known !== undefined) return known;
    if (this.carriers === undefined)
      throw new Error('no motion is known where the carriers are not enclosed');
    const made = new RelativeMotion(this.carriers[fixed], this.carriers[mover]);
    this.motions.set(key, made);
    return made;
  }
}

function enclose(
  m: Mechanism,
  { travelMm, travelHalfMm, steer, steerHalf }: Span,
): CarrierEnclosures | undefined {
  const rackMm = rackAt(m, steer);
  const middle = wayTo(m, travelMm, rackMm);
  if (!middle.reached) return undefined;
  const side = steer < 0 ? -1 : 1;
  // With the steer, so that y of the models runs with it.
  const cell = { travelMm, travelHalfMm, rackMm, rackHalfMm: side * rackAt(m, side * steerHalf) };
  const assembly = encloseAssembly(m, cell, middle.at.lowerArmRad);
  if (assembly === undefined) return undefined;
  const carriers = encloseCarriers(m, assembly);
  return CARRIERS.every((carrier) => isKnown(carriers[carrier])) ? carriers : undefined;
}
