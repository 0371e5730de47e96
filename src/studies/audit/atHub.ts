import { rimDiameterMm } from '../../design/rimSize.ts';
import type { Corner, PartEntry } from '../../design/schema.ts';
import { axialStack, entries, halfOverallWidthMm } from '../../solids/wheelFrame.ts';
import type { Intended, SolidRef } from './intendedContact.ts';
import { alongWheelAxis, commonDepths, type Depths } from './wheelAxisRegion.ts';

/** Rounding difference between sums of the same depths in another order, mm. */
const SAME_DEPTH_MM = 1e-6;

/** The clamped extent of a part along the wheel axis. */
interface Member {
  entry: PartEntry;
  /** Whether it is the rotating hub, whose studs and pilot go through the parts on it. */
  isHub: boolean;
  /** Whether it is the bearing housing, whose spigot goes through the upright. */
  isHousing: boolean;
  depths: Depths;
  radiusMm: number;
}

/**
 * Intended contact of round parts about the wheel axis and the upright's pad: clamped faces, studs, pilot, spigot,
 * and the tyre on its rim.
 */
export function atHub(corner: Corner, a: SolidRef, b: SolidRef): Intended[] {
  const [one, other] = [memberOf(corner, a), memberOf(corner, b)];
  if (one === undefined || other === undefined) return tyreOnRim(corner, a, b);
  const found = clampedFaces(corner, one, other);
  for (const [hub, on] of [
    [one, other],
    [other, one],
  ]) {
    if (hub.isHub) found.push(...onStuds(corner, on));
    if (hub.isHousing) found.push(...spigotInBore(corner, on));
  }
  return found;
}

function memberOf(corner: Corner, { id, partIndex }: SolidRef): Member | undefined {
  const entry = corner.parts[partIndex];
  const stack = axialStack(corner);
  const member = (inboard: number, outboard: number, radiusMm: number): Member => ({
    entry,
    isHub: entry.kind === 'hub' && id === entry.id,
    isHousing: entry.kind === 'hub' && id !== entry.id,
    depths: [inboard, outboard],
    radiusMm,
  });
  switch (entry.kind) {
    case 'hub': {
      if (id === entry.id) return member(-entry.flangeThickness, 0, entry.flangeDiameter / 2);
      return member(stack.housingFaceDepth, -entry.flangeThickness, entry.mountFlangeDiameter / 2);
    }
    case 'rotor': {
      const { hatOuter } = stack.rotorFaces(entry);
      return member(hatOuter - entry.hatThickness, hatOuter, entry.hatDiameter / 2);
    }
    case 'spacer': {
      const { inboard, outboard } = stack.spacerFaces(entry);
      return member(inboard, outboard, entry.outerDiameter / 2);
    }
    case 'wheel':
      return member(stack.wheelFaceDepth, stack.wheelFaceDepth + entry.padThickness, entry.padDiameter / 2);
    case 'upright':
      // The upright's legs are in the plane of its pad, so the other part limits the clamped face.
      return member(
        stack.uprightFaceDepth - entry.plateThickness,
        stack.uprightFaceDepth,
        Number.POSITIVE_INFINITY,
      );
    default:
      return undefined;
  }
}

/** The face that two members share, limited by the smaller one. */
function clampedFaces(corner: Corner, one: Member, other: Member): Intended[] {
  const faces = [
    [one.depths[1], other.depths[0]],
    [one.depths[0], other.depths[1]],
  ].filter(([face, against]) => Math.abs(face - against) <= SAME_DEPTH_MM);
  const radiusMm = Math.min(one.radiusMm, other.radiusMm);
  return faces.map(([depth]) => ({
    what: 'clamped faces',
    region: { shape: 'round', ...alongWheelAxis(corner, [depth, depth], radiusMm) },
    carrier: 'upright',
  }));
}

/**
 * Studs through a part on them, modelled as the ring that they sweep, and the pilot or the flange's edge on the
 * part's inside.
 */
function onStuds(corner: Corner, { entry, depths }: Member): Intended[] {
  const [hub] = entries(corner, 'hub');
  const found: Intended[] = [];
  const ring = (what: string, within: Depths, radiusMm: number, innerRadiusMm: number) => {
    const common = commonDepths(within, depths);
    if (common !== undefined)
      found.push({
        what,
        region: { shape: 'round', ...alongWheelAxis(corner, common, radiusMm, { innerRadiusMm }) },
        carrier: 'upright',
      });
  };
  if (entry.kind !== 'rotor' && entry.kind !== 'spacer' && entry.kind !== 'wheel') return found;
  const [circle, stud] = [hub.boltCircle / 2, hub.studDiameter / 2];
  if (hub.studLength > 0)
    ring('studs in their holes', [-hub.flangeThickness, hub.studLength], circle + stud, circle - stud);
  const pilot = hub.pilotDiameter / 2;
  ring('pilot in its bore', [0, hub.pilotLength], pilot, pilot);
  if (entry.kind === 'rotor') {
    const flange = hub.flangeDiameter / 2;
    const edge = alongWheelAxis(corner, [-hub.flangeThickness, 0], flange, { innerRadiusMm: flange });
    found.push({ what: 'flange in the hat', region: { shape: 'round', ...edge }, carrier: 'upright' });
  }
  return found;
}

function spigotInBore(corner: Corner, { entry }: Member): Intended[] {
  const [hub] = entries(corner, 'hub');
  if ((entry.kind !== 'upright' && entry.kind !== 'spacer') || hub.spigotLength === 0) return [];
  const face = axialStack(corner).housingFaceDepth;
  const radiusMm = hub.spigotDiameter / 2;
  const wall = alongWheelAxis(corner, [face - hub.spigotLength, face], radiusMm, { innerRadiusMm: radiusMm });
  return [{ what: 'spigot in its bore', region: { shape: 'round', ...wall }, carrier: 'upright' }];
}

/**
 * A tyre is modelled from the heel of the bead seats outward, between the flanges; its growth extends over their
 * inner edge.
 */
function tyreOnRim(corner: Corner, a: SolidRef, b: SolidRef): Intended[] {
  const parts = [a, b].map(({ partIndex }) => corner.parts[partIndex]);
  const wheel = parts.find((part) => part.kind === 'wheel');
  if (wheel === undefined || !parts.some(({ kind }) => kind === 'tyre')) return [];
  const { rimCentreY, hubFaceY } = axialStack(corner);
  const [middle, half] = [rimCentreY(wheel) - hubFaceY, halfOverallWidthMm(wheel)];
  const heel = rimDiameterMm(wheel.diameterCode) / 2;
  const rim = alongWheelAxis(corner, [middle - half, middle + half], heel + wheel.flangeHeight, {
    innerRadiusMm: heel,
  });
  return [{ what: 'bead on its rim', region: { shape: 'round', ...rim }, carrier: 'upright' }];
}
