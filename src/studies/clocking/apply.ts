import { withGiven } from '../../design/assumed.ts';
import type { Design } from '../../design/design.ts';
import { withValue } from '../../design/edit.ts';
import { parseDesign } from '../../design/parse.ts';
import { valueAt } from '../../design/path.ts';
import { DesignProblems } from '../../units/problem.ts';
import { studiedCaliper } from './groups.ts';
import { type Clockings, drawnClockings } from './studyPairs.ts';

/** How the parts are mounted. */
export interface Mounting {
  /**
   * Whether the caliper is mirrored about its own middle, as the caliper of the other side is. Its bleed screw is
   * then at the other end.
   */
  caliperMirrored: boolean;
  /** Whether the heads of the hub's bolts are on the other side. */
  headsTurned: boolean;
}

/**
 * The possible mountings of a corner, that of the file first. A caliper with a bleed screw can be mirrored. Hub bolts
 * can be turned, unless their heads are in counterbores, which exist on one side only.
 */
export function mountingsOf({ corner }: Design): Mounting[] {
  const hasScrew = studiedCaliper(corner).entry.bleedScrew !== undefined;
  const hasBolts = corner.parts.some(
    (part) => part.kind === 'bolts' && part.joins === 'hubMount' && part.counterboreDepth === undefined,
  );
  const both = (has: boolean) => (has ? [false, true] : [false]);
  return both(hasScrew).flatMap((caliperMirrored) =>
    both(hasBolts).map((headsTurned) => ({ caliperMirrored, headsTurned })),
  );
}

/** The file with another mounting; all other values are kept as typed. */
export function mountedSource({ corner, source }: Design, mounting: Mounting): unknown {
  let changed = source;
  if (mounting.caliperMirrored) {
    const path = ['parts', studiedCaliper(corner).partIndex, 'bleedScrew'];
    for (const field of ['along', 'directionDeg']) {
      const typed = valueAt(source, [...path, field]);
      if (typed !== undefined) changed = withValue(changed, [...path, field], negated(typed));
    }
  }
  if (mounting.headsTurned) {
    corner.parts.forEach((part, index) => {
      if (part.kind !== 'bolts' || part.joins !== 'hubMount' || part.counterboreDepth !== undefined) return;
      const side = part.headSide === 'inboard' ? 'outboard' : 'inboard';
      changed = withValue(changed, ['parts', index, 'headSide'], side);
    });
  }
  return changed;
}

/** The design with another mounting. Throws DesignProblems if the changed file is invalid. */
export function mountedDesign(design: Design, mounting: Mounting): Design {
  if (!mounting.caliperMirrored && !mounting.headsTurned) return design;
  return designOf(mountedSource(design, mounting), design);
}

/** The design with its caliper and hub at other clockings. Throws DesignProblems if the changed file is invalid. */
export const clockedDesign = (design: Design, to: Clockings): Design =>
  designOf(clockedSource(design.source, drawnClockings(design), to), design);

function designOf(source: unknown, { assets }: Design): Design {
  const parsed = parseDesign(JSON.stringify(source), assets);
  if (parsed.kind === 'bad') throw new DesignProblems(parsed.problems);
  return parsed.design;
}

/** A number or a typed length with the opposite sign. */
function negated(typed: unknown): unknown {
  if (typeof typed === 'number') return typed === 0 ? 0 : -typed;
  const text = String(typed).trim();
  return /^[-−]/.test(text) ? text.slice(1).trim() : `-${text.replace(/^\+/, '')}`;
}

/**
 * The file with its first caliper and its hub at other clockings than `drawn`. All other values are kept as typed,
 * and so is a clocking that does not change.
 */
export function clockedSource(source: unknown, drawn: Clockings, to: Clockings): unknown {
  const parts = valueAt(source, ['parts']);
  const changes = [
    ['caliper', drawn.caliperDeg, to.caliperDeg],
    ['hub', drawn.hubDeg, to.hubDeg],
  ] as const;
  return changes.reduce((file, [kind, fromDeg, toDeg]) => {
    const index = Array.isArray(parts) ? parts.findIndex((part) => valueAt(part, ['kind']) === kind) : -1;
    if (index < 0 || toDeg === fromDeg) return file;
    return withGiven(file, ['parts', index, 'clockingDeg'], Number(toDeg.toFixed(DECIMALS)));
  }, source);
}

/** Decimals of a clocking: far finer than anyone sets it, and coarse enough to remove the rounding of sums. */
const DECIMALS = 6;
