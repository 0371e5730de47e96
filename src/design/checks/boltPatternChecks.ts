import { cos } from '../../math/sine.ts';
import { hubMountCircleMm } from '../fasteners/hubMountCircle.ts';
import {
  boltDiameterMm,
  type ClampedStack,
  type Dimension,
  dimensionOf,
  dimensionText,
  type HubStack,
  hubStackCheck,
  nutDiameterMm,
  type Placed,
  ROUNDING_MM,
  requireLimit,
} from './clampedStack.ts';
import type { Check, Report } from './report.ts';

/** Whether the studs, or the wheel's bolts if the hub has no studs, reach beyond a depth outboard of the hub's face. */
const studsReach = ({ hub }: HubStack, depthMm: number): boolean =>
  hub.entry.studLength === 0 || hub.entry.studLength > depthMm + ROUNDING_MM;

/**
 * Checks that the hub's studs fit through the wheel's holes: each stud has a hole, and the two circles differ by no more
 * than the play of the studs in the holes. Studs that end below the wheel, in a spacer with its own studs, need no hole.
 */
export const studsInWheel: Check = hubStackCheck((stack, report) => {
  const { hub, wheel } = stack;
  if (wheel === undefined || !studsReach(stack, stack.depths.wheelFaceDepth)) return;
  const { studDiameter, studCount, boltCircle } = hub.entry;
  const { boltHole, boltCount } = wheel.entry;
  const stud = `a stud goes through it (${dimensionText(stack, dimensionOf(hub, 'studDiameter'))})`;
  requireLimit(stack, report, dimensionOf(wheel, 'boltHole'), 'at least', studDiameter, stud);
  const playMm = Math.max(0, boltHole - studDiameter);
  const circle = dimensionOf(wheel, 'boltCircle');
  const why =
    `${dimensionText(stack, dimensionOf(hub, 'boltCircle'))}, and the holes are ${stack.lengthText(playMm)} wider ` +
    'than the studs';
  requireLimit(stack, report, circle, 'at least', boltCircle - playMm, why);
  requireLimit(stack, report, circle, 'at most', boltCircle + playMm, why);
  if (boltCount % studCount !== 0)
    report(
      [...wheel.path, 'boltCount'],
      `is ${boltCount}, and must be ${studCount} or a multiple of it: each stud needs a hole (studCount of "${hub.entry.id}")`,
    );
});

/** Checks that bolts on a circle go through a ring with metal left inside and outside their holes. */
function requireRoomInRing(
  stack: ClampedStack,
  report: Report,
  ring: Placed<'spacer'>,
  bolts: { circle: Dimension; diameterMm: number; what: string },
): void {
  const { circle, diameterMm, what } = bolts;
  const why = `${what} of ${stack.lengthText(diameterMm)} go through the ring on a circle of ${stack.valueText(circle)}`;
  requireLimit(stack, report, dimensionOf(ring, 'innerDiameter'), 'less than', circle.mm - diameterMm, why);
  requireLimit(stack, report, dimensionOf(ring, 'outerDiameter'), 'more than', circle.mm + diameterMm, why);
}

/** Diameter of the bearing housing's bolts, mm: the larger of the hub's dimension and the size of the set of bolts. */
const mountBoltMm = ({ hub, bolts }: HubStack): number =>
  Math.max(hub.entry.mountBoltDiameter, boltDiameterMm(bolts('hubMount')));

const mountCircle = ({ hub }: HubStack): Dimension => ({
  part: hub,
  field: hub.entry.mountRectangle === undefined ? 'mountBoltCircle' : 'mountRectangle',
  mm: hubMountCircleMm(hub.entry),
});

/** Checks that the ring of a spacer has room for the holes of the studs, or of the bolts to the upright, through it. */
export const spacersHoldBolts: Check = hubStackCheck((stack, report) => {
  const { hub, depths, wheelSpacers, uprightSpacers } = stack;
  const { studDiameter } = hub.entry;
  const circle = dimensionOf(hub, 'boltCircle');
  for (const ring of wheelSpacers)
    if (studsReach(stack, depths.spacerFaces(ring.entry).inboard))
      requireRoomInRing(stack, report, ring, { circle, diameterMm: studDiameter, what: 'studs' });
  const mount = { circle: mountCircle(stack), diameterMm: mountBoltMm(stack), what: 'bolts' };
  for (const ring of uprightSpacers) requireRoomInRing(stack, report, ring, mount);
});

/** Checks that the bolts of the bearing housing pass beside its spigot. */
export const mountBoltsClearSpigot: Check = hubStackCheck((stack, report) => {
  if (stack.hub.entry.spigotLength === 0) return;
  const spigot = dimensionOf(stack.hub, 'spigotDiameter');
  const [circle, boltMm] = [mountCircle(stack), mountBoltMm(stack)];
  const why = `bolts of ${stack.lengthText(boltMm)} pass beside it on a circle of ${stack.valueText(circle)}`;
  requireLimit(stack, report, spigot, 'at most', circle.mm - boltMm, why);
});

/**
 * Checks that the hat bolts of a rotor are within the hub's flange, outside its pilot if the hat is over the studs, and clear
 * of the studs. The angle between the two patterns is unknown, so they count as clear if they are at the best angle. The
 * clearance of the heads is measured, not checked here. Bolts without a set count as 0 mm wide.
 */
export const hatBoltsInFlange: Check = hubStackCheck((stack, report) => {
  const { hub, rotors } = stack;
  const boltMm = boltDiameterMm(stack.bolts('rotor'));
  const bolts = boltMm === 0 ? 'the bolts' : `bolts of ${stack.lengthText(boltMm)}`;
  const { flangeDiameter, pilotDiameter, pilotLength, boltCircle, studCount, studDiameter } = hub.entry;
  const ofHub = (field: 'flangeDiameter' | 'pilotDiameter' | 'boltCircle') =>
    dimensionText(stack, dimensionOf(hub, field));
  for (const part of rotors) {
    const { hatBolts, mount } = part.entry;
    if (hatBolts === undefined) continue;
    const circle = { part, field: 'hatBolts.circle', mm: hatBolts.circle };
    const inFlange = `${bolts} go through the flange (${ofHub('flangeDiameter')})`;
    requireLimit(stack, report, circle, 'less than', flangeDiameter - boltMm, inFlange);
    if (mount === 'overStuds' && pilotLength > 0) {
      const besidePilot = `${bolts} pass beside the pilot (${ofHub('pilotDiameter')})`;
      requireLimit(stack, report, circle, 'more than', pilotDiameter + boltMm, besidePilot);
    }
    const apart = bestDistanceMm(hatBolts, { count: studCount, circle: boltCircle });
    const least = (boltMm + studDiameter) / 2;
    if (apart >= least - ROUNDING_MM) continue;
    report(
      [...part.path, 'hatBolts', 'circle'],
      `is ${stack.lengthText(hatBolts.circle)}, which puts a bolt within ${stack.lengthText(apart)} of a stud at every angle of the hat: their ` +
        `centres must be at least ${stack.lengthText(least, 'up')} apart. Change the circle or the count (${ofHub('boltCircle')}, with ` +
        `${studCount} studs)`,
    );
  }
});

interface Pattern {
  count: number;
  /** Diameter, mm. */
  circle: number;
}

/**
 * Least distance, mm, between the centres of two patterns about one axis, at the angle that makes it greatest. The
 * directions of the two differ by multiples of a full turn over the least common multiple of their counts; the best angle
 * is half of that.
 */
function bestDistanceMm(one: Pattern, other: Pattern): number {
  const [r, s] = [one.circle / 2, other.circle / 2];
  const common = (one.count * other.count) / commonDivisor(one.count, other.count);
  return Math.sqrt(r * r + s * s - 2 * r * s * cos(Math.PI / common));
}

const commonDivisor = (a: number, b: number): number => (b === 0 ? a : commonDivisor(b, a % b));

/** Checks that nuts and washers on the studs are beside a pilot that reaches out of the wheel's pad. */
export const nutsClearPilot: Check = hubStackCheck((stack, report) => {
  const { hub, wheel, depths } = stack;
  const nuts = stack.bolts('wheel');
  if (nuts === undefined || wheel === undefined) return;
  const { pilotLength, boltCircle } = hub.entry;
  if (pilotLength <= depths.wheelFaceDepth + wheel.entry.padThickness + ROUNDING_MM) return;
  const nutMm = nutDiameterMm(nuts);
  const circle = dimensionText(stack, dimensionOf(hub, 'boltCircle'));
  requireLimit(
    stack,
    report,
    dimensionOf(hub, 'pilotDiameter'),
    'at most',
    boltCircle - nutMm,
    `it reaches out of the wheel beside the nuts, ${stack.lengthText(nutMm)} wide with their washers (${circle})`,
  );
});
