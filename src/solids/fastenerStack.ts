import { boltDimensions, type TurnedPiece, type WasherPiece } from '../design/boltDimensions.ts';
import { DRIVE_DEPTH_MM } from '../design/boltTool.ts';
import type { Corner, Entry } from '../design/schema.ts';
import { circlePlaces, clockedPlace, type HolePlace, hubMountPlaces } from './boltHoles.ts';
import { caliperMountStack } from './caliperMount.ts';
import { DimensionError } from './dimensionError.ts';
import { axialStack, entries } from './wheelFrame.ts';

/** Full threads that stand out of a nut. Common practice, and a rule of student racing. */
const THREADS_BEYOND = 2;

/** What a set of bolts clamps, along the wheel axis (see `AxialStack` for depths). */
interface Clamped {
  /** Centres of the holes, in the wheel-axis frame. */
  places: readonly HolePlace[];
  /** Depths of the two outer faces. */
  outboard: number;
  inboard: number;
  /** Depths of the faces at which the last part begins as it is met from outboard, and from inboard. */
  lastFromOutboard: number;
  lastFromInboard: number;
  /** Ids of the solids that are clamped. */
  solidIds: readonly string[];
}

/** One end of a bolt or stud: what bears on the clamped parts there. */
export interface FastenerEnd {
  kind: 'head' | 'nut';
  /** Depth of the clamped face, and which way along the wheel axis leads away from it: 1 outboard, -1 inboard. */
  faceDepth: number;
  away: 1 | -1;
  /** Of the washer between; 0 without. */
  washerMm: number;
  piece: TurnedPiece;
  /** How far it moves away from its seat until it is free: a head until the tip has left the clamped parts, a nut until
   * it has left the thread. mm. */
  wayMm: number;
}

/** A set of equal bolts in its place, along the wheel axis. */
export interface FastenerStack extends Clamped {
  /** Of each bolt; the head's first. Nuts on studs have theirs alone. */
  ends: readonly FastenerEnd[];
  diameterMm: number;
  washer: WasherPiece | undefined;
  /** Bolts only: from the seat under the head to the tip; undefined of nuts on studs. */
  lengthMm: number | undefined;
  /**
   * Bolts only: from the clamped face under the head to the tip, with the thinnest washer between where the length is given;
   * undefined of nuts on studs.
   */
  reachMm: number | undefined;
}

/** What holds where: of the housing to its upright, of a caliper to its bracket or upright, of a rotor to the hub, of the wheel to its studs. */
function clamped(corner: Corner, { joins }: Entry<'bolts'>): Clamped {
  const stack = axialStack(corner);
  const [hub] = entries(corner, 'hub');
  const [upright] = entries(corner, 'upright');
  const lacking = (kind: string) =>
    new Error(`the bolts of the ${joins} need a part of kind "${kind}", which they hold`);
  if (joins === 'caliperMount') {
    const [caliper] = entries(corner, 'caliper');
    if (caliper === undefined) throw lacking('caliper');
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
    if (upright === undefined) throw lacking('upright');
    // Where the upright takes the ears is not measured: it is taken as thick there as its plate.
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
  if (hub === undefined) throw lacking('hub');
  if (joins === 'wheel') {
    const [wheel] = entries(corner, 'wheel');
    if (wheel === undefined) throw lacking('wheel');
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
      throw new Error('the bolts of the rotor need its holes: write them as hatBolts of the rotor');
    const { count, circle, clockingDeg } = rotor.hatBolts;
    const { hatOuter } = stack.rotorFaces(rotor);
    return {
      places: circlePlaces(count, circle, clockingDeg),
      // The hat lies on the face of the hub's flange, or on its back.
      outboard: Math.max(hatOuter, 0),
      inboard: Math.min(hatOuter - rotor.hatThickness, -hub.flangeThickness),
      lastFromOutboard: Math.min(hatOuter, 0),
      lastFromInboard: Math.max(hatOuter - rotor.hatThickness, -hub.flangeThickness),
      solidIds: [hub.id, rotor.id],
    };
  }
  if (upright === undefined) throw lacking('upright');
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
 * A set of bolts in its place: where its holes are, what it clamps, and what bears on both sides. Throws an Error with one
 * sentence where a part is lacking, or the length of a bolt or stud does not reach.
 */
export function fastenerStack(corner: Corner, bolts: Entry<'bolts'>): FastenerStack {
  const held = clamped(corner, bolts);
  const { size, head, nut, washer } = boltDimensions(bolts);
  const washerMm = washer?.heightMm ?? 0;
  const common = { ...held, diameterMm: size.diameterMm, washer };
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
      ends: [takesThread(bolts, { ...end, wayMm: Math.max(0, studMm - held.outboard - washerMm) })],
    };
  }
  const grip = held.outboard - held.inboard;
  const toNut = washerMm + grip + (nut === undefined ? 0 : washerMm);
  const lengthMm =
    bolts.length ?? (nut === undefined ? toNut : toNut + nut.heightMm + THREADS_BEYOND * size.pitchMm);
  const outboardHead = bolts.headSide === 'outboard';
  const toLast = outboardHead ? held.outboard - held.lastFromOutboard : held.lastFromInboard - held.inboard;
  const least = nut === undefined ? thinMm + toLast : thinMm + grip + thinMm;
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
      ...(outboardHead ? outboard : inboard),
      washerMm,
      piece: head,
      wayMm: reachMm,
    },
  ];
  if (nut !== undefined) {
    const end: FastenerEnd = {
      kind: 'nut',
      ...(outboardHead ? inboard : outboard),
      washerMm,
      piece: nut,
      wayMm: Math.max(0, reachMm - grip - washerMm),
    };
    ends.push(bolts.toolOn === 'head' ? end : takesThread(bolts, end));
  }
  return { ...common, lengthMm, reachMm, ends };
}

/** A nut's end itself. Throws an Error where the socket that is given for it is too short for the thread that it goes over. */
function takesThread({ tool, toolLength }: Entry<'bolts'>, end: FastenerEnd): FastenerEnd {
  const least = end.wayMm + DRIVE_DEPTH_MM;
  if (tool === 'socket' && toolLength !== undefined && toolLength < least)
    throw new DimensionError(
      (shown) =>
        `toolLength ${shown(toolLength)} is too short for a socket over the thread, which ends ${shown(end.wayMm)} from the nut's ` +
        `seat, and under its drive of ${shown(DRIVE_DEPTH_MM)}: it must be ${shown(least)} or more`,
    );
  return end;
}
