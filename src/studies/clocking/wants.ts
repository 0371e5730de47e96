import type { Corner } from '../../design/schema.ts';
import { bleedScrewAtZeroDeg } from './figures.ts';
import { studiedCaliper } from './groups.ts';
import { type Arc, WHOLE_DEG } from './spans.ts';
import { type Unsplit, unsplitArcs } from './unsplit.ts';

/** Requirements on the clockings; an absent one does not restrict them. */
export interface Wants {
  /** Largest angle of the bleed screw from straight up, degrees (see `CaliperFigures`). */
  bleedWithinDeg?: number;
  /** Side of the wheel axis on which the caliper's middle must be. */
  caliperPlace?: 'ahead' | 'behind';
  /** Allowed clockings. */
  caliperRange?: Arc;
  hubRange?: Arc;
  /** Bolts of a mount that a plate of the upright must not be between. */
  unsplit?: readonly Unsplit[];
  /** Smallest margin, mm, beyond targets and allowances; default 0. */
  leastMarginMm?: number;
}

export type WantName = 'bleedWithinDeg' | 'caliperPlace' | 'caliperRange' | 'hubRange' | UnsplitName;

/** The name of the requirement that a plate, by its id, does not split the bolts of a mount. */
export type UnsplitName = `unsplit:${Unsplit['mount']}:${string}`;

const WHOLE: Arc = { fromDeg: -180, toDeg: 180 };

/** One requirement and the arcs in which it is met; without arcs, no clocking meets it. */
export interface WantedArc {
  want: WantName;
  about: 'caliper' | 'hub';
  arcs: readonly Arc[];
}

/**
 * The arcs in which each requirement is met. Throws a RangeError for an impossible requirement: a range of negative
 * length or above 360 degrees, an angle out of bounds, or a bleed screw or plate that the file does not have.
 */
export function wantedArcs(corner: Corner, wants: Wants): WantedArc[] {
  const { bleedWithinDeg, caliperPlace, caliperRange, hubRange, unsplit = [] } = wants;
  const found: WantedArc[] = [];
  if (bleedWithinDeg !== undefined) {
    const atZeroDeg = bleedScrewAtZeroDeg(studiedCaliper(corner).entry);
    if (atZeroDeg === undefined)
      throw new RangeError(
        'the caliper has no bleed screw in the file: add its "bleedScrew" to limit its angle',
      );
    if (!(bleedWithinDeg > 0 && bleedWithinDeg <= 180))
      throw new RangeError(
        `the bleed screw cannot be limited to ${bleedWithinDeg} degrees from straight above the caliper's middle: the limit must be above 0 and at most 180`,
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
    `the ${of}'s clocking cannot range from ${arc.fromDeg} to ${arc.toDeg} degrees: the end must not be below the start, nor more than 360 degrees above it`,
  );
}

/** The arcs in which all requirements on the caliper, or on the hub, are met. */
export function commonArcs(wanted: readonly WantedArc[], about: 'caliper' | 'hub'): Arc[] {
  return wanted
    .filter((one) => one.about === about)
    .reduce<Arc[]>(
      (found, { arcs }) => found.flatMap((one) => arcs.flatMap((arc) => overlaps(one, arc))),
      [WHOLE],
    );
}

/** The intersections of two arcs, counted from the start of the first. */
function overlaps(one: Arc, other: Arc): Arc[] {
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
