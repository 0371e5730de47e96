import type { Corner } from '../../design/schema.ts';
import { bleedScrewAtZeroDeg } from './figures.ts';
import { studiedCaliper } from './groups.ts';
import { type Arc, WHOLE_DEG } from './spans.ts';
import { type Unsplit, unsplitArcs } from './unsplit.ts';

/** What a person wants of the clockings; whatever is absent is free. */
export interface Wants {
  /** The bleed screw no further than this from straight up, degrees (see `CaliperFigures`). */
  bleedWithinDeg?: number;
  /** The middle of the caliper ahead of the wheel axis, or behind it. */
  caliperPlace?: 'ahead' | 'behind';
  /** Clockings that are allowed. */
  caliperRange?: Arc;
  hubRange?: Arc;
  /** Bolts of a mount that a plate of the upright must not stand between. */
  unsplit?: readonly Unsplit[];
  /** Least margin, mm, beyond targets and allowances; 0 where absent. */
  leastMarginMm?: number;
}

export type WantName = 'bleedWithinDeg' | 'caliperPlace' | 'caliperRange' | 'hubRange' | UnsplitName;

/** The name of a want that a plate, by its id, does not split the bolts of a mount. */
export type UnsplitName = `unsplit:${Unsplit['mount']}:${string}`;

const WHOLE: Arc = { fromDeg: -180, toDeg: 180 };

/** One want and where it holds: in no arc, where no clocking meets it whatever clears. */
export interface WantedArc {
  want: WantName;
  about: 'caliper' | 'hub';
  arcs: readonly Arc[];
}

/**
 * Where each want holds. Throws a RangeError for a want that cannot be: a range without length, an angle out of bounds,
 * a bleed screw or a plate that the file does not have.
 */
export function wantedArcs(corner: Corner, wants: Wants): WantedArc[] {
  const { bleedWithinDeg, caliperPlace, caliperRange, hubRange, unsplit = [] } = wants;
  const found: WantedArc[] = [];
  if (bleedWithinDeg !== undefined) {
    const atZeroDeg = bleedScrewAtZeroDeg(studiedCaliper(corner).entry);
    if (atZeroDeg === undefined)
      throw new RangeError(
        'the caliper has no bleed screw in the file: add its "bleedScrew" to ask where it stands',
      );
    if (!(bleedWithinDeg > 0 && bleedWithinDeg <= 180))
      throw new RangeError(
        `the bleed screw cannot be within ${bleedWithinDeg} degrees of straight above the caliper's middle: more than 0, up to 180, can be asked`,
      );
    const arc = { fromDeg: -bleedWithinDeg - atZeroDeg, toDeg: bleedWithinDeg - atZeroDeg };
    found.push({ want: 'bleedWithinDeg', about: 'caliper', arcs: [arc] });
  }
  if (caliperPlace !== undefined) {
    const arc = caliperPlace === 'behind' ? { fromDeg: 0, toDeg: 180 } : { fromDeg: -180, toDeg: 0 };
    found.push({ want: 'caliperPlace', about: 'caliper', arcs: [arc] });
  }
  if (caliperRange !== undefined)
    found.push({ want: 'caliperRange', about: 'caliper', arcs: [checkedRange(caliperRange, 'caliper')] });
  if (hubRange !== undefined)
    found.push({ want: 'hubRange', about: 'hub', arcs: [checkedRange(hubRange, 'hub')] });
  for (const one of unsplit) {
    const { mount, plate } = one;
    found.push({ want: `unsplit:${mount}:${plate}`, about: mount, arcs: unsplitArcs(corner, one) });
  }
  return found;
}

function checkedRange(arc: Arc, of: string): Arc {
  const lengthDeg = arc.toDeg - arc.fromDeg;
  if (lengthDeg >= 0 && lengthDeg <= WHOLE_DEG) return arc;
  throw new RangeError(
    `the ${of}'s clocking cannot range from ${arc.fromDeg} to ${arc.toDeg} degrees: the second must be the larger, by up to 360`,
  );
}

/** Where all of some wants about the caliper, or the hub, hold together. */
export function commonArcs(wanted: readonly WantedArc[], about: 'caliper' | 'hub'): Arc[] {
  return wanted
    .filter((one) => one.about === about)
    .reduce<Arc[]>(
      (found, { arcs }) => found.flatMap((one) => arcs.flatMap((arc) => overlaps(one, arc))),
      [WHOLE],
    );
}

/** The stretches that two arcs have in common, from the beginning of the first on. */
export function overlaps(one: Arc, other: Arc): Arc[] {
  if (one.toDeg - one.fromDeg >= WHOLE_DEG) return [other];
  if (other.toDeg - other.fromDeg >= WHOLE_DEG) return [one];
  const least = Math.ceil((one.fromDeg - other.toDeg) / WHOLE_DEG);
  const most = Math.floor((one.toDeg - other.fromDeg) / WHOLE_DEG);
  return Array.from({ length: Math.max(0, most - least + 1) }, (_, k) => {
    const shift = WHOLE_DEG * (least + k);
    return {
      fromDeg: Math.max(one.fromDeg, other.fromDeg + shift),
      toDeg: Math.min(one.toDeg, other.toDeg + shift),
    };
  });
}
