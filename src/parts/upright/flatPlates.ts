import type { Entry } from '../../design/schema.ts';
import {
  applyDirection,
  applyPoint,
  compose,
  fromAxes,
  invert,
  type Rigid,
  translation,
} from '../../math/rigid.ts';
import { cross, scale, type Vec3 } from '../../math/vec.ts';
import { caliperMountStack } from '../../solids/caliperMount.ts';
import { clockedPlace, hubMountPlaces } from '../../solids/fasteners/boltHoles.ts';
import { bendLengths } from '../../solids/flatPlates/bend.ts';
import { caliperHole, hubMountHole } from '../../solids/flatPlates/boltHole.ts';
import type { FlatPlate, PlateBend, PlateHole, PlateMark } from '../../solids/flatPlates/flatPlate.ts';
import { type LegWall, type LegWallInput, legWallOf } from '../../solids/flatPlates/legWall.ts';
import { isInLoop, regionsOf } from '../../solids/flatPlates/loops.ts';
import { faceInWords, type PlateContext, type PlateMaker } from '../../solids/flatPlates/plateMaker.ts';
import { bandOf, movedSection, sliceIn } from '../../solids/flatPlates/slice.ts';
import type { Point2 } from '../../solids/simplePolygon.ts';
import { armBar, kickOutRadiusMm, legOutward, padFrame } from '../../solids/uprightPlan.ts';
import { entries } from '../../solids/wheelFrame.ts';
import { degToRad, radToDeg } from '../../units/angle.ts';
import { type UprightPieces, uprightPieces } from './build.ts';

type LegName = 'upper' | 'lower';
const LEGS: readonly LegName[] = ['upper', 'lower'];

/** A fold smaller than this is not marked as a bend, degrees. */
const LEAST_BEND_DEG = 0.1;

/** Lines of directions end this far beyond the pad, or two or three times as far, so that their labels are apart, mm. */
const BEYOND_MM = 8;

/** The wheel axis, outboard, in the pad's frame. */
const AXIS: Vec3 = [0, 1, 0];

/**
 * The plates of an upright: the hub pad, in one piece with the faces of the legs if the kick-outs are not inside it; the
 * other walls of boxed legs; and the steering arm. Bosses are no plates.
 */
export const uprightFlatPlates: PlateMaker<Entry<'upright'>> = (entry, context) => {
  const pieces = uprightPieces(entry, context);
  const joined = isOnePiece(entry);
  const walls = LEGS.flatMap((leg) => wallsOf(leg, entry, pieces, context));
  return [
    padPlate(entry, pieces, context, joined ? walls.filter(({ isFace }) => isFace) : []),
    ...walls.filter(({ isFace }) => !(isFace && joined)).flatMap((wall) => wallPlate(wall, entry, context)),
    armPlate(entry, pieces, context),
  ];
};

/** Whether the pad and the faces of the legs can be one plate: the kick-outs are not inside the pad's edge. */
const isOnePiece = (entry: Entry<'upright'>): boolean =>
  kickOutRadiusMm(entry) >= entry.hubMount.diameter / 2;

interface NamedWall {
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
function wallsOf(
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

/** The pad, viewed from outboard: y up in the wheel's plane, the wheel axis at the origin. */
function padPlate(
  entry: Entry<'upright'>,
  { pad, legs, bore, bosses }: UprightPieces,
  context: PlateContext,
  faces: readonly NamedWall[],
): FlatPlate {
  const { corner, modeller, length } = context;
  const { hubMount, plateThickness } = entry;
  const padFromPlate = fromAxes([-1, 0, 0], [0, 0, 1], [0, 1, 0], [0, -plateThickness / 2, 0]);
  const plateFromPad = invert(padFromPlate);
  const kickOut = kickOutRadiusMm(entry);
  const fromLeg = (leg: LegName) => {
    const along = applyDirection(plateFromPad, legOutward(bosses[leg]));
    return ([x, y]: Point2): Point2 => [x * along[1] + y * along[0], -x * along[0] + y * along[1]];
  };
  const flats = LEGS.map((leg) => {
    const outward = legOutward(bosses[leg]);
    const padFromLeg = fromAxes(cross(outward, AXIS), outward, AXIS, [0, -plateThickness / 2, 0]);
    const flat = bandOf(modeller, sliceIn(legs[leg].subtract(bore), padFromLeg), undefined, kickOut);
    return movedSection(modeller, flat, fromLeg(leg));
  });
  const flaps = faces.flatMap(({ leg, developed }) =>
    developed === undefined ? [] : [movedSection(modeller, developed.developed, fromLeg(leg))],
  );
  const circles = [hubMount.diameter / 2, hubMount.bore / 2].map((radiusMm) => ({
    centre: [0, 0] as Point2,
    radiusMm,
  }));
  const disc = sliceIn(pad.subtract(bore), padFromPlate);
  const flat = flats.reduce((all, one) => all.add(one), disc);
  const [{ outline, openings }] = regionsOf(
    flaps.reduce((all, one) => all.add(one), flat),
    circles,
  );
  const [level] = regionsOf(flat, circles);
  const isOn = (at: Point2) =>
    isInLoop(at, level.outline) && !level.openings.some((opening) => isInLoop(at, opening));
  const hub = entries(corner, 'hub')[0];
  const hubHoles: PlateHole[] =
    hub === undefined
      ? []
      : hubMountPlaces(hub).map(([x, z]) => ({
          at: [-x, z],
          use: 'bearing housing to upright',
          ...hubMountHole(corner, hub),
        }));
  const caliperHoles = entries(corner, 'caliper')
    .filter(({ bracket }) => bracket === undefined)
    .flatMap((caliper): PlateHole[] => {
      const { middleRadius } = caliperMountStack(corner, caliper);
      return [1, -1].map((side) => {
        const [x, z] = clockedPlace(caliper.clockingDeg, [
          (side * caliper.mount.boltSpacing) / 2,
          middleRadius,
        ]);
        return { at: [-x, z], use: 'caliper bolt', ...caliperHole(corner, caliper) };
      });
    });
  const missed = caliperHoles.filter(({ at }) => !isOn(at)).length;
  const bends = faces.flatMap(({ leg, developed }) =>
    developed === undefined ? [] : marked(developed.bend, fromLeg(leg)),
  );
  const edge = hubMount.diameter / 2;
  const legMarks = LEGS.map((leg): PlateMark => {
    const [x, , z] = legOutward(bosses[leg]);
    return {
      at: [fromLeg(leg)([0, hubMount.bore / 2]), fromLeg(leg)([0, edge + 2 * BEYOND_MM])],
      label: `${leg} leg, ${clockText(radToDeg(Math.atan2(-x, z)))}`,
    };
  });
  const firstHole = hubHoles[0]?.at;
  return {
    id: `${entry.id}.pad`,
    name: `${entry.label ?? entry.id}: hub pad${faces.length > 0 ? ' and legs' : ''}`,
    thicknessMm: plateThickness,
    quantity: 1,
    sideUp: faceInWords(compose(padFrame(corner), padFromPlate)),
    outline,
    origin: 'the wheel axis',
    openings: openings.map((loop) => ({ loop, use: `bore ${length(hubMount.bore)}` })),
    holes: [...hubHoles, ...caliperHoles.filter(({ at }) => isOn(at))],
    marks: [
      { at: [[0, 0]], label: 'wheel axis' },
      {
        at: [
          [0, -edge - BEYOND_MM],
          [0, edge + BEYOND_MM],
        ],
        label: "up, in the wheel's plane",
      },
      {
        at: [
          [edge + BEYOND_MM, 0],
          [-edge - BEYOND_MM, 0],
        ],
        label: 'forward',
      },
      ...legMarks,
      ...(hub === undefined || firstHole === undefined
        ? []
        : [
            {
              at: [[0, 0], beyond(firstHole, edge + 3 * BEYOND_MM)] as const,
              label: `hub bolt 1, ${clockText(radToDeg(Math.atan2(firstHole[0], firstHole[1])))}`,
            },
          ]),
      ...faces.flatMap(({ leg, developed, input }) =>
        developed === undefined ? [] : [bossMark(leg, input, developed, length, fromLeg(leg))],
      ),
    ],
    bends,
    notes: [
      'Angles are clocking about the wheel axis: 0° is straight up, positive toward the rear.',
      ...(hub === undefined
        ? []
        : ['The solid of the pad has no bolt holes: their places are those of the hub.']),
      ...(faces.length === 0
        ? [
            'The legs leave the plane of the pad inside its edge. They are plates of their own, and the file does not say how they join the pad.',
          ]
        : []),
      ...(missed > 0
        ? [
            'The caliper bolts to the upright, but its bolts are not on this plate. The tabs that carry them are not in the file.',
          ]
        : []),
      ...faces.flatMap((wall) => foldNotes(wall, context)),
      'The steering arm is a plate of its own; the solid has it welded to the pad without a slot.',
    ],
    vehicleFromPlate: compose(padFrame(corner), padFromPlate),
  };
}

/** The point in the direction of a place, at a distance from the origin. */
const beyond = ([x, y]: Point2, toMm: number): Point2 => [
  (x / Math.hypot(x, y)) * toMm,
  (y / Math.hypot(x, y)) * toMm,
];

/** `35.0° clocking`, to a tenth, from -180 to 180. */
const clockText = (deg: number): string => `${deg.toFixed(1).replace('-', '−')}° clocking`;

/** A wall of a leg as a plate of its own. A face starts where it leaves the pad. */
function wallPlate(wall: NamedWall, entry: Entry<'upright'>, context: PlateContext): FlatPlate[] {
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
function marked(bend: PlateBend, map: (at: Point2) => Point2 = (at) => at): PlateBend[] {
  if (Math.abs(bend.angleDeg) < LEAST_BEND_DEG) return [];
  const [from, to, origin, ahead] = [map(bend.from), map(bend.to), map([0, 0]), map(bend.beyond)];
  return [{ ...bend, from, to, beyond: [ahead[0] - origin[0], ahead[1] - origin[1]] }];
}

/** The axis of a boss on a folded wall. */
function bossMark(
  leg: LegName,
  { boss, bossRadiusMm }: LegWallInput,
  { onFlap }: LegWall,
  length: (mm: number) => string,
  map: (at: Point2) => Point2 = (at) => at,
): PlateMark {
  const label = `boss of the ${leg} joint, ${length(2 * bossRadiusMm)} across`;
  return bossLine(boss, bossRadiusMm, (at) => map(onFlap(at)), label);
}

/** The axis of a boss from its far end to its near end, or its middle if it is nearly end-on. */
function bossLine(
  boss: LegWallInput['boss'],
  radiusMm: number,
  onPlate: (at: Vec3) => Point2,
  label: string,
): PlateMark {
  const [near, far] = [onPlate(boss.near), onPlate(boss.far)];
  const isEndOn = Math.hypot(far[0] - near[0], far[1] - near[1]) < radiusMm;
  return { at: isEndOn ? [onPlate(boss.middle)] : [far, near], label };
}

/** How a wall ends at its boss. */
const endNote = (leg: LegName, { isWholeLeg }: LegWallInput): string =>
  `At the boss of the ${leg} joint, the outline is that of the solid, which is ${
    isWholeLeg ? 'thicker than the plate' : 'filled'
  } there and has no hole. The file does not say how the plate meets the boss: cut the end to fit the boss by hand.`;

/** How a wall is folded, by which rule its flat length is found, and how it ends. */
function foldNotes({ leg, input, developed }: NamedWall, { length, bend }: PlateContext): string[] {
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

/** The steering arm: x along the bar from the pad to the boss. */
function armPlate(
  entry: Entry<'upright'>,
  { arm, bore, bosses }: UprightPieces,
  { corner, length }: PlateContext,
): FlatPlate {
  const boss = bosses.steering;
  const { width, thickness } = entry.steeringArm;
  const { padFromBar, runMm } = armBar(boss, entry);
  const barFromPlate = (way: 1 | -1) => fromAxes([0, 0, 1], [0, way, 0], [-way, 0, 0], [0, 0, 0]);
  const vehicleFromBar = compose(padFrame(corner), padFromBar);
  const looksUp = (way: 1 | -1) => applyDirection(compose(vehicleFromBar, barFromPlate(way)), [0, 0, 1])[2];
  const padFromPlate = compose(padFromBar, barFromPlate(looksUp(1) >= 0 ? 1 : -1));
  const plateFromPad = invert(padFromPlate);
  const onPlate = (at: Vec3): Point2 => {
    const [u, v] = applyPoint(plateFromPad, at);
    return [u, v];
  };
  const regions = regionsOf(sliceIn(arm.subtract(bore), padFromPlate), []);
  const [{ outline, openings }] = regions;
  const vehicleFromPlate = compose(padFrame(corner), padFromPlate);
  const [x, , z] = applyDirection(padFromPlate, [1, 0, 0]);
  // From the middle of the pad's ring to its edge, along the bar.
  const inPadMm = Math.min(runMm, (entry.hubMount.diameter - entry.hubMount.bore) / 4 / Math.hypot(x, z));
  return {
    id: `${entry.id}.steeringArm`,
    name: `${entry.label ?? entry.id}: steering arm`,
    thicknessMm: thickness,
    quantity: 1,
    sideUp: faceInWords(vehicleFromPlate),
    outline,
    origin: "the middle of the bar at the pad's ring",
    openings: openings.map((loop) => ({ loop, use: 'opening' })),
    holes: [],
    marks: [
      bossLine(
        boss,
        entry.jointMounts.diameter / 2,
        onPlate,
        `boss, ${length(entry.jointMounts.diameter)} across`,
      ),
      ...[0, -entry.plateThickness].flatMap((y) =>
        padFaceMark(padFromPlate, y, inPadMm, width, y === 0 ? "pad's outboard face" : "pad's inboard face"),
      ),
    ],
    bends: [],
    notes: [
      `Bar of ${length(width)} × ${length(thickness)}. It starts in the middle of the pad's ring and ends in the middle of the tie rod's boss, ${length(runMm)} further.`,
      `The boss, ${length(entry.jointMounts.diameter)} across, has no hole in the solid. The file does not say how the arm meets pad and boss: trim both ends by hand.`,
      ...(regions.length > 1
        ? ['The pad or the boss cuts the bar into several pieces. Only the largest is drawn.']
        : []),
    ],
    vehicleFromPlate,
  };
}

/** Where a face of the pad crosses the middle plane of the bar, within the bar; none if it does not. */
function padFaceMark(
  padFromPlate: Rigid,
  y: number,
  runMm: number,
  widthMm: number,
  label: string,
): PlateMark[] {
  // y in the pad's frame is a + b u + c v over the bar's plane.
  const a = applyPoint(padFromPlate, [0, 0, 0])[1] - y;
  const [, b] = applyDirection(padFromPlate, [1, 0, 0]);
  const [, c] = applyDirection(padFromPlate, [0, 1, 0]);
  const half = widthMm / 2;
  const ends = [
    ...[0, runMm].map((u): Point2 => [u, -(a + b * u) / c]),
    ...[-half, half].map((v): Point2 => [-(a + c * v) / b, v]),
  ]
    .filter(([u, v]) => u >= 0 && u <= runMm && Math.abs(v) <= half)
    .sort(([u1], [u2]) => u2 - u1);
  // The label is at the end toward the pad, where the bar begins.
  return ends.length < 2 ? [] : [{ at: [ends[0], ends[ends.length - 1]], label }];
}
