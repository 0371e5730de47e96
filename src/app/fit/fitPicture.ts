import { ANGLES, angleIndex } from '../../studies/clocking/profile.ts';
import { wrapDeg } from '../../studies/clocking/spans.ts';

/** Least margin of all pairs that follow one angle, at each of `ANGLES`. */
export interface FitAxis {
  /** +Infinity where all are beyond the search limit or there are none, NaN where one cannot be told. */
  marginMm: Float64Array;
  /** Index into the pairs of the study; -1 where no pair limits. */
  limitedBy: Int32Array;
  /** 1 where all are proved to keep their margins. */
  clears: Uint8Array;
}

/** What a map of caliper and hub clocking shows. */
export interface FitPicture {
  caliper: FitAxis;
  hub: FitAxis;
  /** Follows the caliper's clocking less the hub's. */
  between: FitAxis;
  /** 1 at each of `ANGLES` that the wants allow. */
  caliperWanted: Uint8Array;
  hubWanted: Uint8Array;
}

export interface FitCell {
  marginMm: number;
  limitedBy: number;
  clears: boolean;
  isWanted: boolean;
}

/** The three angles of two clockings, by their place in `ANGLES`. */
const placesOf = (caliperDeg: number, hubDeg: number): readonly [number, number, number] => [
  angleIndex(caliperDeg),
  angleIndex(hubDeg),
  angleIndex(wrapDeg(Math.round(caliperDeg) - Math.round(hubDeg))),
];

/** What the map shows at two clockings, to the nearest degree. */
export function cellAt(picture: FitPicture, caliperDeg: number, hubDeg: number): FitCell {
  const { caliper, hub, between, caliperWanted, hubWanted } = picture;
  const [a, b, c] = placesOf(caliperDeg, hubDeg);
  const cell: FitCell = {
    marginMm: Number.POSITIVE_INFINITY,
    limitedBy: -1,
    clears: caliper.clears[a] + hub.clears[b] + between.clears[c] === 3,
    isWanted: caliperWanted[a] + hubWanted[b] === 2,
  };
  for (const [axis, k] of [
    [caliper, a],
    [hub, b],
    [between, c],
  ] as const) {
    // What cannot be told of one cannot be told of all.
    if (!Number.isNaN(axis.marginMm[k]) && !(axis.marginMm[k] < cell.marginMm)) continue;
    cell.marginMm = axis.marginMm[k];
    cell.limitedBy = axis.limitedBy[k];
    if (Number.isNaN(cell.marginMm)) break;
  }
  return cell;
}

/** Clocking at a fraction of the way along the map's edge, to the nearest degree. */
export const clockingAt = (fraction: number): number =>
  ANGLES[Math.max(0, Math.min(ANGLES.length - 1, Math.floor(fraction * ANGLES.length)))];

/** Where a clocking stands along the map's edge. */
export const fractionAt = (deg: number): number => (wrapDeg(deg) + 180.5) / ANGLES.length;
