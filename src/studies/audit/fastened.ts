import type { Corner, Entry } from '../../design/schema.ts';
import { bodyOverBolts, caliperMountStack } from '../../solids/caliperMount.ts';
import { clockedPlace, type HolePlace } from '../../solids/fasteners/boltHoles.ts';
import { fastenerStack } from '../../solids/fasteners/fastenerStack.ts';
import { entries } from '../../solids/wheelFrame.ts';
import type { Intended, SolidRef } from './intendedContact.ts';
import { alongWheelAxis, commonDepths, type Depths } from './wheelAxisRegion.ts';

/** Intended contact of bolts with the parts that they hold, and of a caliper with the upright. */
export function fastened(corner: Corner, a: SolidRef, b: SolidRef): Intended[] {
  const [one, other] = [corner.parts[a.partIndex], corner.parts[b.partIndex]];
  if (one.kind === 'bolts' && other.kind !== 'bolts') return boltsIn(corner, one, b);
  if (other.kind === 'bolts' && one.kind !== 'bolts') return boltsIn(corner, other, a);
  if (one.kind === 'caliper' && other.kind === 'upright') return caliperOnUpright(corner, one);
  if (other.kind === 'caliper' && one.kind === 'upright') return caliperOnUpright(corner, other);
  return [];
}

const rounds = (
  corner: Corner,
  what: string,
  places: readonly HolePlace[],
  depths: Depths,
  radiusMm: number,
): Intended[] =>
  places.map((place) => ({
    what,
    region: { shape: 'round', ...alongWheelAxis(corner, depths, radiusMm, { place }) },
    carrier: 'upright',
  }));

/**
 * Shanks from the clamped face under the head to the tip, within the parts that they hold; faces under heads and
 * nuts.
 */
function boltsIn(corner: Corner, bolts: Entry<'bolts'>, held: SolidRef): Intended[] {
  const stack = fastenerStack(corner, bolts);
  const { places, ends, diameterMm, reachMm, washer } = stack;
  const [hub] = entries(corner, 'hub');
  if (bolts.joins === 'wheel' && held.id === hub?.id) {
    // The hub's studs are modelled as the ring that they sweep, and nuts without threads.
    const [circle, stud] = [hub.boltCircle / 2, hub.studDiameter / 2];
    const depths: Depths = [stack.outboard, Math.max(stack.outboard, hub.studLength)];
    const ring = alongWheelAxis(corner, depths, circle + stud, { innerRadiusMm: circle - stud });
    return [{ what: 'studs in their nuts', region: { shape: 'round', ...ring }, carrier: 'upright' }];
  }
  if (!stack.solidIds.includes(held.id)) return [];
  const widest = Math.max(washer?.acrossMm ?? 0, ...ends.map(({ piece }) => piece.roundMm));
  const found = ends.flatMap(({ faceDepth, kind }) =>
    rounds(corner, `face under the ${kind}s`, places, [faceDepth, faceDepth], widest / 2),
  );
  if (reachMm !== undefined) {
    const { faceDepth, away } = ends[0];
    const { counterboreDiameter, counterboreDepth } = bolts;
    if (counterboreDiameter !== undefined && counterboreDepth !== undefined) {
      const recess: Depths = [faceDepth, faceDepth + away * counterboreDepth];
      found.push(...rounds(corner, 'heads in their counterbores', places, recess, counterboreDiameter / 2));
    }
    const inHeld = commonDepths([faceDepth, faceDepth - away * reachMm], [stack.inboard, stack.outboard]);
    if (inHeld !== undefined)
      found.push(...rounds(corner, 'bolts in their holes', places, inHeld, diameterMm / 2));
  }
  const caliper = entries(corner, 'caliper').find(({ id }) => id === held.id);
  const body = caliper && bodyOverBolts(corner, caliper, diameterMm);
  if (body !== undefined) {
    const space = 'space of the bolts inside the body, which is not measured';
    found.push(...rounds(corner, space, places, [body.inboard, body.outboard], widest / 2));
  }
  return found;
}

/** Ears and bolts on the upright. With a bracket, both faces of the bracket, which then holds the bolts. */
function caliperOnUpright(corner: Corner, caliper: Entry<'caliper'>): Intended[] {
  const { mount, bracket, clockingDeg } = caliper;
  const stack = caliperMountStack(corner, caliper);
  const places = [-1, 1].map((side) =>
    clockedPlace(clockingDeg, [(side * mount.boltSpacing) / 2, stack.middleRadius]),
  );
  if (bracket !== undefined && stack.bracket !== undefined) {
    const feet = [-1, 1].map((side) =>
      clockedPlace(clockingDeg, [(side * bracket.width) / 2, bracket.innerRadius]),
    );
    return [stack.bracket.inboard, stack.bracket.outboard].map((depth) => ({
      what: 'bracket on the upright',
      region: {
        shape: 'hull',
        rounds: [
          ...places.map((place) => alongWheelAxis(corner, [depth, depth], mount.earDiameter / 2, { place })),
          ...feet.map((place) => alongWheelAxis(corner, [depth, depth], 0, { place })),
        ],
      },
      carrier: 'upright',
    }));
  }
  const faces = [stack.earInboard, stack.earOutboard].flatMap((depth) =>
    rounds(corner, 'ears on the upright', places, [depth, depth], mount.earDiameter / 2),
  );
  const areParts =
    entries(corner, 'caliper')[0].id === caliper.id &&
    entries(corner, 'bolts').some(({ joins }) => joins === 'caliperMount');
  if (areParts) return faces;
  const shank: Depths = [stack.boltInboard, stack.earInboard];
  return [...faces, ...rounds(corner, 'bolts in their holes', places, shank, mount.boltDiameter / 2)];
}
