import type { Entry } from '../../design/schema.ts';
import { applyDirection, compose, fromAxes, invert } from '../../math/rigid.ts';
import { cross } from '../../math/vec.ts';
import { caliperMountStack } from '../../solids/caliperMount.ts';
import { clockedPlace, hubMountPlaces } from '../../solids/fasteners/boltHoles.ts';
import { caliperHole, hubMountHole } from '../../solids/flatPlates/boltHole.ts';
import type { FlatPlate, PlateHole, PlateMark } from '../../solids/flatPlates/flatPlate.ts';
import { isInLoop, regionsOf } from '../../solids/flatPlates/loops.ts';
import { faceInWords, type PlateContext, type PlateMaker } from '../../solids/flatPlates/plateMaker.ts';
import { bandOf, movedSection, sliceIn } from '../../solids/flatPlates/slice.ts';
import { armPlate } from '../../solids/flatPlates/uprightArm.ts';
import {
  AXIS,
  bossMark,
  foldNotes,
  isOnePiece,
  LEGS,
  type LegName,
  marked,
  type NamedWall,
  wallPlate,
  wallsOf,
} from '../../solids/flatPlates/uprightLegs.ts';
import type { Point2 } from '../../solids/simplePolygon.ts';
import { kickOutRadiusMm, legOutward, padFrame } from '../../solids/uprightPlan.ts';
import { entries } from '../../solids/wheelFrame.ts';
import { radToDeg } from '../../units/angle.ts';
import { type UprightPieces, uprightPieces } from './build.ts';

/** Lines of directions end this far beyond the pad, or two or three times as far, so that their labels are apart, mm. */
const BEYOND_MM = 8;

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
