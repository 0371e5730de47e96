import { readFastenerSize } from '../design/fastenerSizes.ts';
import type { Corner, Entry } from '../design/schema.ts';
import type { HolePlace } from './boltHoles.ts';
import type { BuildContext } from './build.ts';
import { bodyOverBolts } from './caliperMount.ts';
import type { FastenerStack } from './fastenerStack.ts';
import { BEYOND_EDGE_MM, depthAxis, disc, shankIn } from './seatZones.ts';
import type { Seat, Zone } from './solid.ts';
import { entries } from './wheelFrame.ts';

const UNDER_BODY = 'the body covers its own bolts as measured: what room it leaves them is not known';

/**
 * Where fasteners bear on what they hold: about each of them a round slab from the one clamped face to the other. What
 * stands up from those faces, such as the barrel of a housing beside a head, is outside it. Nuts on studs have their
 * stud besides, which runs through them. Against a caliper whose body covers its own bolts as measured the slab runs through
 * that half of it: what room it leaves them is not known. A tool that is wider bears on all that it covers: `leastRadiusMm`.
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
  const seats = solidIds.map((solidId): Seat => {
    if (solidId !== throughBody?.caliperId) return { solidId, zones };
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

/** The caliper whose body covers its own bolts as measured, and how deep; undefined of all other bolts. */
export function bodyOverCaliperBolts(
  corner: Corner,
  { joins }: Pick<Entry<'bolts'>, 'joins'>,
  { diameterMm }: Pick<FastenerStack, 'diameterMm'>,
): { caliperId: string; outboard: number; inboard: number } | undefined {
  const [caliper] = joins === 'caliperMount' ? entries(corner, 'caliper') : [];
  const depths = caliper && bodyOverBolts(corner, caliper, diameterMm);
  return depths && { caliperId: caliper.id, ...depths };
}

/** The ids of the sets of bolts that the body of their own caliper covers as measured. */
export const boltsUnderBody = (corner: Corner): string[] =>
  entries(corner, 'bolts')
    .filter((bolts) => {
      const { diameterMm } = readFastenerSize(bolts.size);
      return bodyOverCaliperBolts(corner, bolts, { diameterMm }) !== undefined;
    })
    .map(({ id }) => id);

/** The zones of one fastener only, of those that `seatsOf` gives. */
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
