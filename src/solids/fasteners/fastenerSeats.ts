import { readFastenerSize } from '../../design/fasteners/fastenerSizes.ts';
import type { Corner, Entry } from '../../design/schema.ts';
import type { BuildContext } from '../build.ts';
import { bodyOverBolts } from '../caliperMount.ts';
import type { Seat, Zone } from '../solid.ts';
import { entries } from '../wheelFrame.ts';
import type { HolePlace } from './boltHoles.ts';
import type { FastenerStack } from './fastenerStack.ts';
import { BEYOND_EDGE_MM, depthAxis, disc, shankIn } from './seatZones.ts';

const INSIDE = 'the bolts are entirely inside their holes and counterbores';
const UNDER_BODY =
  "the caliper's body, as entered, covers its own bolts: the room that it leaves for them is unknown";

/**
 * Zones where fasteners touch the parts that they hold: around each fastener a round slab from one clamped face to the
 * other. Surfaces beyond those faces, such as the barrel of a housing beside a head, are outside it. Nuts on studs also have
 * a zone for their stud. If a caliper's body, as entered, covers its own bolts, the slab runs through that half of the
 * body, since the room that it leaves for them is unknown. `leastRadiusMm`: least radius of the slabs, for a wider tool.
 */
export function seatsOf(
  stack: FastenerStack,
  bolts: Entry<'bolts'>,
  context: Pick<BuildContext, 'corner' | 'chordToleranceMm'>,
  leastRadiusMm = 0,
): Seat[] {
  const { places, outboard, inboard, solidIds } = stack;
  const widest = Math.max(stack.washer?.acrossMm ?? 0, ...stack.ends.map(({ piece }) => piece.roundMm));
  const radiusMm = Math.max(widest / 2 + BEYOND_EDGE_MM, leastRadiusMm);
  const zones = places.map((place) => slab(place, [inboard, outboard], radiusMm, context));
  const throughBody = bodyOverCaliperBolts(context.corner, bolts, stack);
  const within = liesInside(stack) ? { notChecked: INSIDE } : {};
  const seats = solidIds.map((solidId): Seat => {
    if (solidId !== throughBody?.caliperId) return { solidId, zones, ...within };
    const depths: [number, number] = [
      Math.min(inboard, throughBody.inboard),
      Math.max(outboard, throughBody.outboard),
    ];
    const throughZones = places.map((place) => slab(place, depths, radiusMm, context));
    return { solidId, zones: throughZones, notChecked: UNDER_BODY };
  });
  const [hub] = entries(context.corner, 'hub');
  if (bolts.joins !== 'wheel' || hub === undefined) return seats;
  const reach = Math.max(hub.studLength, outboard);
  const studs = places.map((place) =>
    shankIn(
      depthAxis(context.corner, place),
      [inboard, reach],
      hub.studDiameter,
      context.chordToleranceMm,
      'stud in its nut',
    ),
  );
  return [...seats, { solidId: hub.id, zones: studs }];
}

/** Whether the fasteners are entirely inside the clamped parts; the zones then cover all of them. */
function liesInside({ ends, reachMm, outboard, inboard }: FastenerStack): boolean {
  const isInside = (depth: number) => inboard <= depth && depth <= outboard;
  const [first] = ends;
  return (
    reachMm !== undefined &&
    isInside(first.faceDepth - first.away * reachMm) &&
    ends.every(({ faceDepth, away, washerMm, piece }) =>
      isInside(faceDepth + away * (washerMm + piece.heightMm)),
    )
  );
}

/** The caliper whose body, as entered, covers these bolts, with the depths of that half of the body; else undefined. */
export function bodyOverCaliperBolts(
  corner: Corner,
  { joins }: Pick<Entry<'bolts'>, 'joins'>,
  { diameterMm }: Pick<FastenerStack, 'diameterMm'>,
): { caliperId: string; outboard: number; inboard: number } | undefined {
  const [caliper] = joins === 'caliperMount' ? entries(corner, 'caliper') : [];
  const depths = caliper && bodyOverBolts(corner, caliper, diameterMm);
  return depths && { caliperId: caliper.id, ...depths };
}

/** Ids of the sets of bolts that the body of their caliper, as entered, covers. */
export const boltsUnderBody = (corner: Corner): string[] =>
  entries(corner, 'bolts')
    .filter((bolts) => {
      const { diameterMm } = readFastenerSize(bolts.size);
      return bodyOverCaliperBolts(corner, bolts, { diameterMm }) !== undefined;
    })
    .map(({ id }) => id);

/** The zones of one fastener, from the result of `seatsOf`. */
export const seatsOfOne = (seats: readonly Seat[], index: number): Seat[] =>
  seats.map((seat) => ({ ...seat, zones: seat.zones.slice(index, index + 1) }));

const slab = (
  place: HolePlace,
  depths: readonly [number, number],
  radiusMm: number,
  { corner, chordToleranceMm }: Pick<BuildContext, 'corner' | 'chordToleranceMm'>,
): Zone =>
  disc(
    depthAxis(corner, place),
    depths,
    radiusMm,
    chordToleranceMm,
    'bolt in its hole, head and nut on their faces',
  );
