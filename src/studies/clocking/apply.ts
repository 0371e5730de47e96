import { withGiven } from '../../design/assumed.ts';
import type { Design } from '../../design/design.ts';
import { withValue } from '../../design/edit.ts';
import { parseDesign } from '../../design/parse.ts';
import { valueAt } from '../../design/path.ts';
import { DesignProblems } from '../../design/problem.ts';
import { studiedCaliper } from './groups.ts';
import { type Clockings, drawnClockings } from './studyPairs.ts';

/** Which way round the parts are mounted. */
export interface Mounting {
  /** The caliper mirrored about its own middle, as one of the other side is: its bleed screw at the other end. */
  caliperMirrored: boolean;
  /** The heads of the hub's bolts on the other side. */
  headsTurned: boolean;
}

/** The ways round that a corner can be mounted, as drawn first: a caliper with a bleed screw has two, hub bolts have two. */
export function mountingsOf({ corner }: Design): Mounting[] {
  const hasScrew = studiedCaliper(corner).entry.bleedScrew !== undefined;
  const hasBolts = corner.parts.some((part) => part.kind === 'bolts' && part.joins === 'hubMount');
  const both = (has: boolean) => (has ? [false, true] : [false]);
  return both(hasScrew).flatMap((caliperMirrored) =>
    both(hasBolts).map((headsTurned) => ({ caliperMirrored, headsTurned })),
  );
}

/** The file mounted the other way round; all else is kept as typed. */
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
      if (part.kind !== 'bolts' || part.joins !== 'hubMount') return;
      const side = part.headSide === 'inboard' ? 'outboard' : 'inboard';
      changed = withValue(changed, ['parts', index, 'headSide'], side);
    });
  }
  return changed;
}

/** The same as a design. Throws DesignProblems where the file mounted so is not sound. */
export function mountedDesign(design: Design, mounting: Mounting): Design {
  if (!mounting.caliperMirrored && !mounting.headsTurned) return design;
  return designOf(mountedSource(design, mounting));
}

/** A design with its caliper and hub at other clockings. Throws DesignProblems where the file is not sound then. */
export const clockedDesign = (design: Design, to: Clockings): Design =>
  designOf(clockedSource(design.source, drawnClockings(design), to));

function designOf(source: unknown): Design {
  const parsed = parseDesign(JSON.stringify(source));
  if (parsed.kind === 'bad') throw new DesignProblems(parsed.problems);
  return parsed.design;
}

/** A number, or a length as typed, of the other sign. */
function negated(typed: unknown): unknown {
  if (typeof typed === 'number') return typed === 0 ? 0 : -typed;
  const text = String(typed).trim();
  return /^[-−]/.test(text) ? text.slice(1).trim() : `-${text.replace(/^\+/, '')}`;
}

/**
 * A file with its first caliper and its hub turned from how they are drawn to other clockings; all else is kept as typed, and
 * so is a clocking that stays what it is.
 */
export function clockedSource(source: unknown, drawn: Clockings, to: Clockings): unknown {
  const parts = valueAt(source, ['parts']);
  const wanted = [
    ['caliper', drawn.caliperDeg, to.caliperDeg],
    ['hub', drawn.hubDeg, to.hubDeg],
  ] as const;
  return wanted.reduce((file, [kind, fromDeg, toDeg]) => {
    const index = Array.isArray(parts) ? parts.findIndex((part) => valueAt(part, ['kind']) === kind) : -1;
    if (index < 0 || toDeg === fromDeg) return file;
    return withGiven(file, ['parts', index, 'clockingDeg'], Number(toDeg.toFixed(DECIMALS)));
  }, source);
}

/** Far finer than anyone sets a clocking, and free of the rounding of sums. */
const DECIMALS = 6;
