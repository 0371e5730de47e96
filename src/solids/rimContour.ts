import { rimDiameterMm } from '../design/rimSize.ts';
import type { Entry } from '../design/schema.ts';
import { DimensionError } from './dimensionError.ts';
import type { CrossSection, Modeller } from './modeller.ts';
import { outline, type ProfilePoint, ringProfile } from './revolved.ts';
import { halfOverallWidthMm } from './wheelFrame.ts';

const INCH = 25.4;
/** Taper of the bead seats, falling toward the middle of the rim. ISO 4000-2. */
const SEAT_TAPER = Math.tan((5 * Math.PI) / 180);
/** Slope of the drop centre's flanks from square to the axis. Common practice, no source. */
const FLANK_SLOPE = Math.tan((15 * Math.PI) / 180);
/** Greatest distance of a measured station beyond the edge of the flange: error of tape and square, common practice. */
const STATION_SLACK_MM = 10;

/** Least width of a bead seat (P) by width code: JIS D 4218:2021 Table 3, modified ISO 4000-2:2013. */
function seatWidthMm(widthMm: number): number {
  const code = widthMm / INCH;
  if (code < 3.25) return 13;
  return code < 4.25 ? 15 : 19.5;
}

/**
 * Contour of the rim's tyre side, from the inboard heel of the bead seats to the outboard one: two seats tapered by 5
 * degrees and a drop centre. y from the rim's centre plane. Throws if the drop centre does not fit between the seats.
 */
function tyreSideContour(wheel: Entry<'wheel'>): ProfilePoint[] {
  const heel = rimDiameterMm(wheel.diameterCode) / 2;
  const half = wheel.width / 2;
  const seat = seatWidthMm(wheel.width);
  const seatFoot = heel - seat * SEAT_TAPER;
  const well = heel - wheel.dropDepth;
  if (!(well < seatFoot))
    throw new DimensionError(
      (shown) =>
        `dropDepth ${shown(wheel.dropDepth)} does not reach below the bead seats, which themselves fall by ` +
        `${shown(heel - seatFoot)}: measure it from the seat at the flange`,
    );
  const flank = (seatFoot - well) * FLANK_SLOPE;
  const from = wheel.dropPlace - wheel.dropWidth / 2;
  const to = wheel.dropPlace + wheel.dropWidth / 2;
  const room = half - seat - flank;
  if (from < -room || to > room)
    throw new DimensionError(
      (shown) =>
        `the drop centre (dropWidth ${shown(wheel.dropWidth)} at dropPlace ${shown(wheel.dropPlace)}) does not fit ` +
        `between the bead seats of a rim of width ${shown(wheel.width)}: it may reach ${shown(Math.max(0, room))} to ` +
        `each side of the centre plane`,
    );
  return [
    [heel, -half],
    [seatFoot, -half + seat],
    [seatFoot, from - flank],
    [well, from],
    [well, to],
    [seatFoot, to + flank],
    [seatFoot, half - seat],
    [heel, half],
  ];
}

/** Radius at `y` of a chain of points in order of y; beyond its ends, the radius of the end. */
function radiusAt(chain: readonly ProfilePoint[], y: number): number {
  const next = chain.findIndex((point) => point[1] >= y);
  if (next === -1) return chain[chain.length - 1][0];
  if (next === 0) return chain[0][0];
  const [r0, y0] = chain[next - 1];
  const [r1, y1] = chain[next];
  return r0 + ((r1 - r0) * (y - y0)) / (y1 - y0);
}

/** Area on the tyre side of the rim, out to a radius beyond the flanges; y from the rim's centre plane. */
export function tyreSide(modeller: Modeller, wheel: Entry<'wheel'>): CrossSection {
  const beyond = rimDiameterMm(wheel.diameterCode) / 2 + wheel.flangeHeight + wheel.wall + 10;
  const half = wheel.width / 2;
  return outline(modeller, [[beyond, -half], ...tyreSideContour(wheel), [beyond, half]]);
}

/**
 * Profile of barrel and flanges, y from the rim's centre plane: a wall of constant thickness under the tyre side, and
 * flanges as solid rings of thickness `lip` with a square edge, which is slightly too large. If `innerBarrel` is given, it
 * is the inside, and the wall fills the space between it and the tyre side, at least `wall` thick. `faceFromCentreMm`: y of
 * the wheel's mounting face from the rim's centre plane (its offset). Throws if a station of `innerBarrel` is out of place
 * or out of order.
 */
export function barrelProfile(
  modeller: Modeller,
  wheel: Entry<'wheel'>,
  faceFromCentreMm: number,
): CrossSection {
  const heel = rimDiameterMm(wheel.diameterCode) / 2;
  const edge = halfOverallWidthMm(wheel);
  const top = heel + wheel.flangeHeight;
  const side = tyreSide(modeller, wheel);
  const band = ringProfile(modeller, 0, top, -edge, edge);
  const flanges = ringProfile(modeller, heel - wheel.wall, top, -edge, edge);
  const standard = side.offset(wheel.wall, 'Miter').intersect(band).add(flanges).subtract(side);
  if (wheel.innerBarrel === undefined) return standard;

  const stations = wheel.innerBarrel.map(({ depth, radius }, index): ProfilePoint => {
    const y = faceFromCentreMm + depth;
    if (Math.abs(y) > edge + STATION_SLACK_MM)
      throw new DimensionError(
        (shown) =>
          `innerBarrel[${index}].depth ${shown(depth)} is ${shown(Math.abs(y) - edge)} beyond the edge of the flange: ` +
          'measure it from the mounting face, inboard negative, and check width and offset or backspacing',
      );
    if (radius >= heel)
      throw new DimensionError(
        (shown) =>
          `innerBarrel[${index}].radius ${shown(radius)} is not inside the bead seat, whose radius is ${shown(heel)} ` +
          `for diameterCode ${wheel.diameterCode}: give the radius, not the diameter`,
      );
    return [radius, y];
  });
  const misplaced = stations.findIndex((point, index) => index > 0 && point[1] <= stations[index - 1][1]);
  if (misplaced > 0) {
    const { depth } = wheel.innerBarrel[misplaced];
    throw new DimensionError(
      (shown) =>
        `innerBarrel[${misplaced}].depth ${shown(depth)} is not outboard of the station ` +
        'before it: give the stations from the inboard edge outboard',
    );
  }
  return measuredBarrel(modeller, wheel, stations, { standard, side, band });
}

function measuredBarrel(
  modeller: Modeller,
  wheel: Entry<'wheel'>,
  stations: readonly ProfilePoint[],
  rim: { standard: CrossSection; side: CrossSection; band: CrossSection },
): CrossSection {
  const first = stations[0];
  const last = stations[stations.length - 1];
  const beyond = rim.side.bounds().max[0];
  const outside = outline(modeller, [[beyond, first[1]], ...stations, [beyond, last[1]]]).subtract(rim.side);
  const leastWall = outline(modeller, [
    ...stations,
    ...stations.map(([radius, y]): ProfilePoint => [radius + wheel.wall, y]).reverse(),
  ]);
  const measured = outside.add(leastWall).intersect(rim.band);
  const elsewhere = rim.standard.subtract(ringProfile(modeller, 0, beyond, first[1], last[1]));
  return elsewhere.add(measured).add(
    modeller.CrossSection.union(
      [first, last].flatMap(([radius, y], end) => {
        const contour = radiusAt(tyreSideContour(wheel), y);
        if (radius < contour) return [];
        const away = y + (end === 0 ? -wheel.wall : wheel.wall);
        return [ringProfile(modeller, contour - wheel.wall, radius + wheel.wall, y, away)];
      }),
    ),
  );
}
