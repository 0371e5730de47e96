import type { Axis, Limit } from './axis.ts';
import { type Arc, isInArc, isWhole, WHOLE_DEG } from './spans.ts';

/** One side of a region, with what ends it there: pairs, or the range that was wanted. */
export interface Border {
  /** The clocking, or the caliper's less the hub's, that cannot go beyond `deg`. */
  about: 'caliper' | 'hub' | 'between';
  end: 'from' | 'to';
  deg: number;
  /** Indices into the pairs of the study; none where the wanted range ends. */
  limitedBy: readonly number[];
}

/** A connected region of clockings in which all pairs that follow them are proved to keep their margins. */
export interface Region {
  /** Of the caliper's clocking, the hub's, and the caliper's less the hub's. Whole circles are 360 long. */
  caliper: Arc;
  hub: Arc;
  between: Arc;
  borders: readonly Border[];
}

/** An arc with what ends it. */
interface Side {
  arc: Arc;
  from: Limit | undefined;
  to: Limit | undefined;
}

/** The three axes of a study with the clockings that are wanted. */
export interface RegionAxes {
  caliper: Axis;
  hub: Axis;
  between: Axis;
  caliperWanted: readonly Arc[];
  hubWanted: readonly Arc[];
}

/**
 * The connected regions of caliper and hub clocking. Each is what an arc of the caliper, one of the hub and one of their
 * difference have in common: where none is a whole circle, once for each turn by which the difference fits.
 */
export function regionsOf(axes: RegionAxes): Region[] {
  const caliper = wantedSides(axes.caliper, axes.caliperWanted);
  const hub = wantedSides(axes.hub, axes.hubWanted);
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

/** What arcs of an axis and wanted ones have in common. */
function wantedSides(axis: Axis, wanted: readonly Arc[]): Side[] {
  const free = sidesOf(axis);
  return wanted.flatMap((range) => {
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

/** Whole turns that make the first of two arcs meet the second. */
function shifts(arc: Arc, range: Arc): number[] {
  const least = Math.ceil((range.fromDeg - arc.toDeg) / WHOLE_DEG);
  const most = Math.floor((range.toDeg - arc.fromDeg) / WHOLE_DEG);
  return Array.from({ length: Math.max(0, most - least + 1) }, (_, k) => WHOLE_DEG * (least + k));
}

/** The turns by which the difference of the first two arcs meets the third; one where a whole circle joins them all. */
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

/** Whether two clockings lie in a region, borders included. */
export function isInRegion({ caliper, hub, between }: Region, caliperDeg: number, hubDeg: number): boolean {
  if (!isInArc(caliper, caliperDeg) || !isInArc(hub, hubDeg)) return false;
  if (isWhole(caliper) || isWhole(hub) || isWhole(between)) return isInArc(between, caliperDeg - hubDeg);
  const difference = lifted(caliper, caliperDeg) - lifted(hub, hubDeg);
  return difference >= between.fromDeg && difference <= between.toDeg;
}

/** The same angle, from the beginning of an arc on. */
const lifted = ({ fromDeg }: Arc, deg: number): number =>
  deg + WHOLE_DEG * Math.ceil((fromDeg - deg) / WHOLE_DEG);
