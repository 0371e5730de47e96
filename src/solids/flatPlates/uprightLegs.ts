import type { Entry } from '../../design/schema.ts';
import { compose, translation } from '../../math/rigid.ts';
import { cross, scale, type Vec3 } from '../../math/vec.ts';
import type { UprightPieces } from '../../parts/upright/build.ts';
import { degToRad } from '../../units/angle.ts';
import type { Point2 } from '../simplePolygon.ts';
import { kickOutRadiusMm, legOutward, padFrame } from '../uprightPlan.ts';
import { bendLengths } from './bend.ts';
import { bossLine } from './bossLine.ts';
import type { FlatPlate, PlateBend, PlateMark } from './flatPlate.ts';
import { type LegWall, type LegWallInput, legWallOf } from './legWall.ts';
import { regionsOf } from './loops.ts';
import { faceInWords, type PlateContext } from './plateMaker.ts';

export type LegName = 'upper' | 'lower';
export const LEGS: readonly LegName[] = ['upper', 'lower'];

/** A fold smaller than this is not marked as a bend, degrees. */
const LEAST_BEND_DEG = 0.1;

/** The wheel axis, outboard, in the pad's frame. */
export const AXIS: Vec3 = [0, 1, 0];

/** Whether the pad and the faces of the legs can be one plate: the kick-outs are not inside the pad's edge. */
export const isOnePiece = (entry: Entry<'upright'>): boolean =>
  kickOutRadiusMm(entry) >= entry.hubMount.diameter / 2;

/** A wall of a leg: the plate itself, or a side of a boxed leg. */
export interface NamedWall {
  leg: LegName;
  /** `face`, `back`, `front`, `rear`. */
  id: string;
  name: string;
  isFace: boolean;
  input: LegWallInput;
  /** Undefined if the solid does not show where the wall goes beyond the kick-out. */
  developed: LegWall | undefined;
}

/** The walls of a leg: the plate itself, or the face, the back and the two sides of a boxed leg. */
export function wallsOf(
  leg: LegName,
  entry: Entry<'upright'>,
  { legs, bore, bosses }: UprightPieces,
  { modeller, bend }: PlateContext,
): NamedWall[] {
  const boss = bosses[leg];
  const outward = legOutward(boss);
  const sideways = cross(AXIS, outward);
  const { boxDepth, plateThickness, boxWall, legWidth } = entry;
  const common = {
    solid: legs[leg].subtract(bore),
    boss,
    bossRadiusMm: entry.jointMounts.diameter / 2,
    outward,
    kickOutMm: kickOutRadiusMm(entry),
  };
  const wall = (id: string, name: string, normal: Vec3, outerMm: number, thicknessMm: number): NamedWall => {
    const input = { ...common, normal, outerMm, thicknessMm, isWholeLeg: boxDepth === 0 };
    const isFace = id === 'face';
    // A face that starts at the kick-out has no fold.
    const rule = isFace && !isOnePiece(entry) ? undefined : bend;
    return { leg, id, name, isFace, input, developed: legWallOf(modeller, input, rule) };
  };
  const face = wall('face', boxDepth > 0 ? 'face' : 'plate', AXIS, 0, plateThickness);
  if (boxDepth === 0) return [face];
  const isForward = sideways[0] >= 0;
  const [front, rear] = isForward ? [sideways, scale(sideways, -1)] : [scale(sideways, -1), sideways];
  return [
    face,
    wall('back', 'back', scale(AXIS, -1), boxDepth, boxWall),
    wall('front', 'front side', front, legWidth / 2, boxWall),
    wall('rear', 'rear side', rear, legWidth / 2, boxWall),
  ];
}

/** A wall of a leg as a plate of its own. A face starts where it leaves the pad. */
export function wallPlate(wall: NamedWall, entry: Entry<'upright'>, context: PlateContext): FlatPlate[] {
  const { leg, id, name, isFace, input, developed } = wall;
  if (developed === undefined) return [];
  const { corner, length } = context;
  const startsAtFold = isFace;
  const section = startsAtFold ? developed.flap : developed.developed;
  const boreOnFlat = { centre: [0, 0] as Point2, radiusMm: entry.hubMount.bore / 2 };
  const [{ outline, openings }] = regionsOf(section, Math.abs(input.normal[1]) === 1 ? [boreOnFlat] : []);
  const padFromPlate = startsAtFold
    ? compose(developed.padFromFlap, translation([0, -developed.foldMm, 0]))
    : developed.padFromFlat;
  const vehicleFromPlate = compose(padFrame(corner), padFromPlate);
  return [
    {
      id: `${entry.id}.${leg}Leg.${id}`,
      name: `${entry.label ?? entry.id}: ${leg} leg, ${name}`,
      thicknessMm: input.thicknessMm,
      quantity: 1,
      sideUp: `${faceInWords(vehicleFromPlate)}${entry.boxDepth > 0 ? ', outside of the box' : ''}`,
      outline,
      origin: 'the wheel axis, on the middle line of the leg',
      openings: openings.map((loop) => ({ loop, use: 'bore' })),
      holes: [],
      marks: [bossMark(leg, input, developed, length)],
      bends: startsAtFold ? [] : marked(developed.bend),
      notes: [
        ...(startsAtFold
          ? [
              `The straight end is the kick-out line, ${length(input.kickOutMm)} from the wheel axis. It is inside the pad's edge: trim it to the pad.`,
              `The plate is at ${Math.abs(developed.bend.angleDeg).toFixed(1)}° to the pad, toward ${
                developed.bend.angleDeg < 0 ? 'inboard' : 'outboard'
              }.`,
            ]
          : [`The end away from the boss is at the bore: the leg of the solid starts at the wheel axis.`]),
        ...(startsAtFold ? [endNote(leg, input)] : foldNotes(wall, context)),
        ...(entry.boxDepth > 0
          ? [
              'The file does not say how the walls of the box meet at its corners. The outline runs to the outside of the box: take off the thickness of each plate that this one stands against.',
            ]
          : []),
      ],
      vehicleFromPlate,
    },
  ];
}

/** A bend in the axes of its plate; none if the fold is too small to mark. */
export function marked(bend: PlateBend, map: (at: Point2) => Point2 = (at) => at): PlateBend[] {
  if (Math.abs(bend.angleDeg) < LEAST_BEND_DEG) return [];
  const [from, to, origin, ahead] = [map(bend.from), map(bend.to), map([0, 0]), map(bend.beyond)];
  return [{ ...bend, from, to, beyond: [ahead[0] - origin[0], ahead[1] - origin[1]] }];
}

/** The axis of a boss on a folded wall. */
export function bossMark(
  leg: LegName,
  { boss, bossRadiusMm }: LegWallInput,
  { onFlap }: LegWall,
  length: (mm: number) => string,
  map: (at: Point2) => Point2 = (at) => at,
): PlateMark {
  const label = `boss of the ${leg} joint, ${length(2 * bossRadiusMm)} across`;
  return bossLine(boss, bossRadiusMm, (at) => map(onFlap(at)), label);
}

/** How a wall ends at its boss. */
const endNote = (leg: LegName, { isWholeLeg }: LegWallInput): string =>
  `At the boss of the ${leg} joint, the outline is that of the solid, which is ${
    isWholeLeg ? 'thicker than the plate' : 'filled'
  } there and has no hole. The file does not say how the plate meets the boss: cut the end to fit the boss by hand.`;

/** How a wall is folded, by which rule its flat length is found, and how it ends. */
export function foldNotes({ leg, input, developed }: NamedWall, { length, bend }: PlateContext): string[] {
  if (developed === undefined)
    return [
      `The boss of the ${leg} joint reaches inside the kick-out radius. The shape of the ${leg} leg beyond the kick-out is unknown and is left out.`,
    ];
  const { angleDeg, shiftMm, allowanceMm } = developed.bend;
  const end = endNote(leg, input);
  if (Math.abs(angleDeg) < LEAST_BEND_DEG) return [end];
  const { thicknessMm } = input;
  if (bend === undefined) {
    const usual = bendLengths(degToRad(angleDeg), thicknessMm, { radiusMm: thicknessMm, kFactor: 0.5 });
    return [
      `The bend radius of the ${leg} leg is unknown. The flat length is that of a sharp fold in the middle of the plate, as the solid has it. With an inside radius of ${length(thicknessMm)} and the neutral axis in the middle, it would be ${length(2 * usual.setbackMm - usual.allowanceMm)} less.`,
      end,
    ];
  }
  return [
    `Bend of the ${leg} leg: inside radius ${length(bend.radiusMm)}, neutral axis at ${bend.kFactor} of the thickness from the inside face (K factor). The bend takes up ${length(allowanceMm)} of the plate. The plate is ${length(-shiftMm)} shorter than with a sharp fold. Make a test bend: the K factor depends on material and tools.`,
    end,
  ];
}
