import { boltDimensions, type TurnedPiece, type WasherPiece } from '../../design/fasteners/boltDimensions.ts';
import { DRIVE_DEPTH_MM } from '../../design/fasteners/boltTool.ts';
import type { Corner, Entry } from '../../design/schema.ts';
import { caliperMountStack } from '../caliperMount.ts';
import { DimensionError } from '../dimensionError.ts';
import { axialStack, entries } from '../wheelFrame.ts';
import { circlePlaces, clockedPlace, type HolePlace, hubMountPlaces } from './boltHoles.ts';

/** Full threads beyond a nut. Common practice, and a rule of student racing. */
const THREADS_BEYOND = 2;

/** The parts that a set of bolts clamps, along the wheel axis (see `AxialStack` for depths). */
interface Clamped {
  /** Centres of the holes, in the wheel-axis frame. */
  places: readonly HolePlace[];
  /** Depths of the two outer faces. */
  outboard: number;
  inboard: number;
  /** Depths of the near face of the last part, counted from outboard, and counted from inboard. */
  lastFromOutboard: number;
  lastFromInboard: number;
  /** Ids of the solids that are clamped. */
  solidIds: readonly string[];
}

/** One end of a bolt or stud: the head or nut, and the face that carries it. */
export interface FastenerEnd {
  kind: 'head' | 'nut';
  /**
   * Depth of the clamped face, or of the bottom of its counterbore; and the direction away from it along the wheel axis: 1
   * outboard, -1 inboard.
   */
  faceDepth: number;
  away: 1 | -1;
  /** Thickness of the washer under it; 0 without a washer. */
  washerMm: number;
  piece: TurnedPiece;
  /** Distance that it moves from its seat until it is free, mm: a head until the tip has left the clamped parts, a nut until
   * it has left the thread. */
  wayMm: number;
}

/** A set of equal bolts in place, along the wheel axis. */
export interface FastenerStack extends Clamped {
  /** Ends of each bolt, the head's first. Nuts on studs have one end. */
  ends: readonly FastenerEnd[];
  diameterMm: number;
  washer: WasherPiece | undefined;
  /** Length from the seat under the head to the tip; undefined for nuts on studs. */
  lengthMm: number | undefined;
  /** Distance between the faces under head and nut; without a nut, to the far clamped face. */
  gripMm: number;
  /**
   * Distance from the face under the head to the tip, over the thinnest washer if the length is given; undefined for nuts on
   * studs.
   */
  reachMm: number | undefined;
}

/** Clamped stack of each joint: housing and upright, caliper and bracket or upright, rotor and hub, or wheel and studs. */
function clamped(corner: Corner, { joins }: Entry<'bolts'>): Clamped {
  const stack = axialStack(corner);
  const [hub] = entries(corner, 'hub');
  const [upright] = entries(corner, 'upright');
  const missing = (kind: string) =>
    new Error(`the bolts of the ${joins} need a part of kind "${kind}", which they hold`);
  if (joins === 'caliperMount') {
    const [caliper] = entries(corner, 'caliper');
    if (caliper === undefined) throw missing('caliper');
    const { mount, clockingDeg } = caliper;
    const { middleRadius, earOutboard, earInboard, bracket } = caliperMountStack(corner, caliper);
    const places = [1, -1].map((side) =>
      clockedPlace(clockingDeg, [(side * mount.boltSpacing) / 2, middleRadius]),
    );
    if (bracket !== undefined)
      return {
        places,
        outboard: Math.max(earOutboard, bracket.outboard),
        inboard: Math.min(earInboard, bracket.inboard),
        lastFromOutboard: Math.min(earOutboard, bracket.outboard),
        lastFromInboard: Math.max(earInboard, bracket.inboard),
        solidIds: [caliper.id],
      };
    if (upright === undefined) throw missing('upright');
    // The upright's thickness at the ears is not measured; that of its plate is used.
    const inboard = earInboard - upright.plateThickness;
    return {
      places,
      outboard: earOutboard,
      inboard,
      lastFromOutboard: earInboard,
      lastFromInboard: earInboard,
      solidIds: [caliper.id, upright.id],
    };
  }
  if (hub === undefined) throw missing('hub');
  if (joins === 'wheel') {
    const [wheel] = entries(corner, 'wheel');
    if (wheel === undefined) throw missing('wheel');
    return {
      places: circlePlaces(hub.studCount, hub.boltCircle, hub.clockingDeg),
      outboard: stack.wheelFaceDepth + wheel.padThickness,
      inboard: -hub.flangeThickness,
      lastFromOutboard: 0,
      lastFromInboard: stack.wheelFaceDepth,
      solidIds: [wheel.id],
    };
  }
  if (joins === 'rotor') {
    const rotor = entries(corner, 'rotor').find(({ hatBolts }) => hatBolts !== undefined);
    if (rotor?.hatBolts === undefined)
      throw new Error('the bolts of the rotor need holes in its hat: give the rotor its hatBolts');
    const { count, circle, clockingDeg } = rotor.hatBolts;
    const { hatOuter } = stack.rotorFaces(rotor);
    return {
      places: circlePlaces(count, circle, clockingDeg),
      // The hat is on the face of the hub's flange, or on its back.
      outboard: Math.max(hatOuter, 0),
      inboard: Math.min(hatOuter - rotor.hatThickness, -hub.flangeThickness),
      lastFromOutboard: Math.min(hatOuter, 0),
      lastFromInboard: Math.max(hatOuter - rotor.hatThickness, -hub.flangeThickness),
      solidIds: [hub.id, rotor.id],
    };
  }
  if (upright === undefined) throw missing('upright');
  const spacers = entries(corner, 'spacer').filter(({ place }) => place === 'upright');
  return {
    places: hubMountPlaces(hub),
    outboard: stack.housingFaceDepth + hub.mountFlangeThickness,
    inboard: stack.uprightFaceDepth - upright.plateThickness,
    lastFromOutboard: stack.uprightFaceDepth,
    lastFromInboard: stack.housingFaceDepth,
    solidIds: [`${hub.id}.housing`, upright.id, ...spacers.map(({ id }) => id)],
  };
}

/**
 * A set of bolts in place: its holes, the clamped parts, and the pieces at both ends. Throws an Error with one sentence if a
 * part is missing, or a bolt or stud is too short.
 */
export function fastenerStack(corner: Corner, bolts: Entry<'bolts'>): FastenerStack {
  const held = clamped(corner, bolts);
  const { size, head, nut, washer } = boltDimensions(bolts);
  const washerMm = washer?.heightMm ?? 0;
  const sunkMm = bolts.counterboreDepth ?? 0;
  const gripMm = held.outboard - held.inboard - sunkMm;
  const common = { ...held, diameterMm: size.diameterMm, washer, gripMm };
  const thinMm = washer?.leastHeightMm ?? 0;
  if (head === undefined) {
    const studMm = entries(corner, 'hub')[0]?.studLength ?? 0;
    const least = held.outboard + thinMm;
    if (studMm <= least)
      throw new DimensionError(
        (shown) =>
          `the hub's studLength ${shown(studMm)} does not reach the nut: it must be more than ${shown(least)}`,
      );
    const piece = nut as TurnedPiece;
    const end = { kind: 'nut', faceDepth: held.outboard, away: 1, washerMm, piece } as const;
    return {
      ...common,
      lengthMm: undefined,
      reachMm: undefined,
      ends: [withCheckedSocket(bolts, { ...end, wayMm: Math.max(0, studMm - held.outboard - washerMm) })],
    };
  }
  const outboardHead = bolts.headSide === 'outboard';
  const underHeadMm = outboardHead
    ? held.outboard - held.lastFromInboard
    : held.lastFromOutboard - held.inboard;
  if (sunkMm >= underHeadMm)
    throw new DimensionError(
      (shown) =>
        `counterboreDepth ${shown(sunkMm)} must be less than ${shown(underHeadMm)}, the thickness of the part under the heads`,
    );
  const toNut = washerMm + gripMm + (nut === undefined ? 0 : washerMm);
  const lengthMm =
    bolts.length ?? (nut === undefined ? toNut : toNut + nut.heightMm + THREADS_BEYOND * size.pitchMm);
  const clampedMm = outboardHead
    ? held.outboard - held.lastFromOutboard
    : held.lastFromInboard - held.inboard;
  const toLast = clampedMm - sunkMm;
  const least = nut === undefined ? thinMm + toLast : thinMm + gripMm + thinMm;
  if (lengthMm <= least)
    throw new DimensionError(
      (shown) =>
        `length ${shown(lengthMm)} does not reach ${nut === undefined ? 'into the last part that the bolts hold' : 'the nut'}: ` +
        `it must be more than ${shown(least)}`,
    );
  const reachMm = lengthMm - (bolts.length === undefined ? washerMm : thinMm);
  const [outboard, inboard] = [
    { faceDepth: held.outboard, away: 1 },
    { faceDepth: held.inboard, away: -1 },
  ] as const;
  const ends: FastenerEnd[] = [
    {
      kind: 'head',
      ...(outboardHead
        ? { ...outboard, faceDepth: held.outboard - sunkMm }
        : { ...inboard, faceDepth: held.inboard + sunkMm }),
      washerMm,
      piece: head,
      wayMm: reachMm + sunkMm,
    },
  ];
  if (nut !== undefined) {
    const end: FastenerEnd = {
      kind: 'nut',
      ...(outboardHead ? inboard : outboard),
      washerMm,
      piece: nut,
      wayMm: Math.max(0, reachMm - gripMm - washerMm),
    };
    ends.push(bolts.toolOn === 'head' ? end : withCheckedSocket(bolts, end));
  }
  return { ...common, lengthMm, reachMm, ends };
}

/** Returns the end of a nut. Throws an Error if the socket given for it is too short for the thread beyond the nut. */
function withCheckedSocket({ tool, toolLength }: Entry<'bolts'>, end: FastenerEnd): FastenerEnd {
  const least = end.wayMm + DRIVE_DEPTH_MM;
  if (tool === 'socket' && toolLength !== undefined && toolLength < least)
    throw new DimensionError(
      (shown) =>
        `toolLength ${shown(toolLength)} is too short for a socket: the thread ends ${shown(end.wayMm)} from the nut's seat, ` +
        `and the drive takes up ${shown(DRIVE_DEPTH_MM)}. It must be ${shown(least)} or more`,
    );
  return end;
}
