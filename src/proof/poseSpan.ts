import type { Carrier } from '../design/schema.ts';
import { inputAt } from '../mechanism/assemble.ts';
import { type CarrierEnclosures, encloseCarriers } from '../mechanism/carriers.ts';
import { encloseAssembly } from '../mechanism/enclosure.ts';
import type { Mechanism } from '../mechanism/mechanism.ts';
import { routeTo } from '../mechanism/solvePose.ts';
import { isKnown, RelativeMotion } from './proveMotion.ts';

/** A range of travel and steer, given by its middle and half widths, on one side of straight ahead. */
export interface Span {
  travelMm: number;
  travelHalfMm: number;
  steer: number;
  steerHalf: number;
}

/** All poses of a span. Enclosures and motions are computed once and cached. */
export class PoseSpan {
  readonly travelMm: number;
  readonly travelHalfMm: number;
  readonly steer: number;
  readonly steerHalf: number;
  /** Enclosures of every carrier over the span; undefined if the mechanism is not shown to work over all of it. */
  readonly carriers: CarrierEnclosures | undefined;
  private readonly motions = new Map<string, RelativeMotion>();

  constructor(mechanism: Mechanism, span: Span) {
    this.travelMm = span.travelMm;
    this.travelHalfMm = span.travelHalfMm;
    this.steer = span.steer;
    this.steerHalf = span.steerHalf;
    this.carriers = enclose(mechanism, span);
  }

  /** Motion of the carrier `mover` in the frame of `fixed`. Throws an Error if the carriers are not enclosed. */
  motion(fixed: Carrier, mover: Carrier): RelativeMotion {
    const key = `${fixed} ${mover}`;
    const known = this.motions.get(key);
    if (known !== undefined) return known;
    if (this.carriers === undefined)
      throw new Error('the carriers of this span are not enclosed, so no motion is known');
    const made = new RelativeMotion(this.carriers[fixed], this.carriers[mover]);
    this.motions.set(key, made);
    return made;
  }
}

function enclose(
  m: Mechanism,
  { travelMm, travelHalfMm, steer, steerHalf }: Span,
): CarrierEnclosures | undefined {
  const input = inputAt(m, steer);
  const middle = routeTo(m, travelMm, input);
  if (!middle.reached) return undefined;
  const side = steer < 0 ? -1 : 1;
  // The sign makes the models' y increase with steer.
  const cell = { travelMm, travelHalfMm, input, inputHalf: side * inputAt(m, side * steerHalf) };
  const assembly = encloseAssembly(m, cell, middle.at.armRad);
  if (assembly === undefined) return undefined;
  const carriers = encloseCarriers(m, assembly);
  return m.carriers.every((carrier) => isKnown(carriers[carrier])) ? carriers : undefined;
}
