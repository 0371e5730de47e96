import type { Axis, Limit } from './axis.ts';
import { type Arc, isInArc, isWhole, WHOLE_DEG } from './spans.ts';

/** One border of a region, with its cause: pairs, or the end of the allowed range. */
export interface Border {
  /** The angle that is limited to `deg`: a clocking, or the caliper's less the hub's. */
  about: 'caliper' | 'hub' | 'between';
  end: 'from' | 'to';
  deg: number;
  /** Indices into the pairs of the study; empty at the end of the allowed range. */
  limitedBy: readonly number[];
}

/** A connected region of clockings in which all pairs that depend on them are proved to keep their margins. */
export interface Region {
  /**
   * Arcs of the caliper's clocking, the hub's, and the caliper's less the hub's. A whole circle is 360 degrees long.
   */
  caliper: Arc;
  hub: Arc;
  between: Arc;
  borders: readonly Border[];
}

/** An arc with its limits. */
interface Side {
  arc: Arc;
  from: Limit | undefined;
  to: Limit | undefined;
}

/** The three axes of a study with the allowed clockings. */
export interface RegionAxes {
  caliper: Axis;
  hub: Axis;
  between: Axis;
  caliperAllowed: readonly Arc[];
  hubAllowed: readonly Arc[];
}

/**
 * The connected regions of caliper and hub clocking. Each is the intersection of an arc of the caliper, one of the
 * hub and one of their difference. If none of them is a whole circle, there is one region for each whole turn by
 * which the difference fits.
 */
export function regionsOf(axes: RegionAxes): Region[] {
  const caliper = allowedSides(axes.caliper, axes.caliperAllowed);
  const hub = allowedSides(axes.hub, axes.hubAllowed);
  const between = sidesOf(axes.between);
  return caliper.flatMap((a) =>
    hub.flatMap((b) =>
      between.flatMap((c) =>
        placements(a.arc, b.arc, c.arc).map((shift) => regionOf(a, b, turned(c, shift))),
      ),
    ),
  );
}

const sidesOf = (axis: Axis): Side[] =>
  axis.arcs.map((arc) => {
    const limits = axis.limitsOf(arc);
    return { arc, from: limits?.from, to: limits?.to };
  });

/** Intersections of an axis's arcs with the allowed arcs. */
function allowedSides(axis: Axis, allowed: readonly Arc[]): Side[] {
  const free = sidesOf(axis);
  return allowed.flatMap((range) => {
    if (isWhole(range)) return free;
    return free.flatMap((side): Side[] => {
      if (isWhole(side.arc))
        return [
          {
            arc: range,
            from: { deg: range.fromDeg, limitedBy: [] },
            to: { deg: range.toDeg, limitedBy: [] },
          },
        ];
      return shifts(side.arc, range).map((shift) => {
        const [from, to] = [side.arc.fromDeg + shift, side.arc.toDeg + shift];
        const arc = { fromDeg: Math.max(from, range.fromDeg), toDeg: Math.min(to, range.toDeg) };
        return {
          arc,
          from: from >= range.fromDeg ? side.from : { deg: arc.fromDeg, limitedBy: [] },
          to: to <= range.toDeg ? side.to : { deg: arc.toDeg, limitedBy: [] },
        };
      });
    });
  });
}

/** Whole turns by which the first of two arcs meets the second. */
function shifts(arc: Arc, range: Arc): number[] {
  const least = Math.ceil((range.fromDeg - arc.toDeg) / WHOLE_DEG);
  const most = Math.floor((range.toDeg - arc.fromDeg) / WHOLE_DEG);
  return Array.from({ length: Math.max(0, most - least + 1) }, (_, k) => WHOLE_DEG * (least + k));
}

/** Turns by which the third arc meets the difference of the first two; a single one if any arc is a whole circle. */
function placements(caliper: Arc, hub: Arc, between: Arc): number[] {
  if (isWhole(caliper) || isWhole(hub) || isWhole(between)) return [0];
  const difference = { fromDeg: caliper.fromDeg - hub.toDeg, toDeg: caliper.toDeg - hub.fromDeg };
  return shifts(between, difference);
}

const turned = (side: Side, byDeg: number): Side => ({
  ...side,
  arc: { fromDeg: side.arc.fromDeg + byDeg, toDeg: side.arc.toDeg + byDeg },
});

function regionOf(caliper: Side, hub: Side, between: Side): Region {
  const borders = (about: Border['about'], { from, to }: Side): Border[] => [
    ...(from === undefined ? [] : [{ about, end: 'from' as const, ...from }]),
    ...(to === undefined ? [] : [{ about, end: 'to' as const, ...to }]),
  ];
  return {
    caliper: caliper.arc,
    hub: hub.arc,
    between: between.arc,
    borders: [...borders('caliper', caliper), ...borders('hub', hub), ...borders('between', between)],
  };
}

/** Whether two clockings are in a region, borders included. */
export function isInRegion({ caliper, hub, between }: Region, caliperDeg: number, hubDeg: number): boolean {
  if (!isInArc(caliper, caliperDeg) || !isInArc(hub, hubDeg)) return false;
  if (isWhole(caliper) || isWhole(hub) || isWhole(between)) return isInArc(between, caliperDeg - hubDeg);
  const difference = lifted(caliper, caliperDeg) - lifted(hub, hubDeg);
  return difference >= between.fromDeg && difference <= between.toDeg;
}

/** The same angle, shifted by whole turns to be at or after the start of an arc. */
const lifted = ({ fromDeg }: Arc, deg: number): number =>
  deg + WHOLE_DEG * Math.ceil((fromDeg - deg) / WHOLE_DEG);
