import { rimDiameterMm } from '../../design/rimSize.ts';
import type { Entry } from '../../design/schema.ts';
import { tyreDimensions } from '../../design/tyreSize.ts';
import {
  add,
  addScaled,
  distance,
  distanceFromLine,
  dot,
  lerp,
  normalize,
  sub,
  type Vec3,
} from '../../math/vec.ts';
import { entries } from '../../solids/wheelFrame.ts';
import type { Dimension, Inclination, Linear } from './dimension.ts';
import type { CornerFacts } from './facts.ts';
import type { Point } from './ontoScreen.ts';

type Project = (vehiclePoint: Vec3) => Point;

/** Distance on paper of the line of a member's length from the member, mm. */
const BESIDE_MM = 9;

const point = (name: string): string => `suspension.hardpoints.${name}`;
const capital = (words: string): string => `${words[0].toUpperCase()}${words.slice(1)}`;

/** Paths of the values that the steering axis depends on. */
const kingpinPaths = ({ layout: { kingpin } }: CornerFacts): string[] => [
  point(kingpin.lower),
  point(kingpin.upper),
];

/** Paths of the values that the tyre's contact with the ground depends on. */
function contactPaths(facts: CornerFacts): string[] {
  const [tyre] = entries(facts.corner, 'tyre');
  return [
    point('wheelCentre'),
    'suspension.camberDeg',
    'suspension.toeDeg',
    ...wheelPlanePaths(facts),
    ...(tyre === undefined ? [] : tyreFields(facts, tyre, 'overallDiameter')),
  ];
}

/** Paths of the values that put the wheel's middle plane on the wheel axis. Without a hub face, it is at the wheel centre. */
function wheelPlanePaths({ corner, fieldOf }: CornerFacts): string[] {
  const [wheel] = entries(corner, 'wheel');
  if (wheel === undefined || corner.suspension.hubFace === undefined) return [];
  const placed = wheel.offset === undefined ? ['backspacing', 'width', 'lip'] : ['offset'];
  return [
    'suspension.hubFace',
    ...placed.map((field) => fieldOf(wheel, field)),
    ...entries(corner, 'rotor').map((rotor) => fieldOf(rotor, 'hatThickness')),
    ...entries(corner, 'spacer').map((spacer) => fieldOf(spacer, 'thickness')),
  ];
}

/** Paths of a tyre's size and of the field that replaces it. */
export const tyreFields = ({ fieldOf }: CornerFacts, tyre: Entry<'tyre'>, field: string): string[] =>
  ['designation', field].map((one) => fieldOf(tyre, one));

const toGround = ({ wheel: { kingpinAtGround } }: CornerFacts, project: Project): Point =>
  project(kingpinAtGround);

function inclination(
  facts: CornerFacts,
  project: Project,
  { id, name, valueDeg }: Pick<Inclination, 'id' | 'name' | 'valueDeg'>,
): Inclination {
  const { kingpinAtGround, kingpin } = facts.wheel;
  return {
    kind: 'inclination',
    id,
    name,
    assumed: facts.isAssumed(...kingpinPaths(facts)),
    foot: toGround(facts, project),
    through: project(add(kingpinAtGround, kingpin)),
    valueDeg,
  };
}

/** Dimensions of the front view. `project`: from the left corner's points to the view. */
export function frontDimensions(facts: CornerFacts, project: Project): Dimension[] {
  const { corner, alignment, wheel, outboard, isAssumed } = facts;
  const { contact, wheelCentre } = wheel;
  const { travel } = corner.suspension;
  const out = corner.side === 'left' ? 'right' : 'left';
  const above = (mm: number) => project(add(wheelCentre, [0, 0, mm]));
  const contactAssumed = isAssumed(...contactPaths(facts));
  const stroke = (id: 'bump' | 'droop', sense: 1 | -1): Linear[] =>
    travel[id] === 0
      ? []
      : [
          {
            kind: 'linear',
            id,
            name: capital(id),
            a: above(0),
            b: above(sense * travel[id]),
            lane: out,
            valueMm: travel[id],
            assumed: isAssumed(`suspension.travel.${id}`),
          },
        ];
  return [
    {
      kind: 'linear',
      id: 'halfTrack',
      name: 'Half track',
      a: project([contact[0], 0, contact[2]]),
      b: project(contact),
      lane: 'below',
      valueMm: alignment.halfTrackMm,
      assumed: contactAssumed,
    },
    {
      kind: 'linear',
      id: 'scrubRadius',
      name: 'Scrub radius',
      a: project(addScaled(contact, outboard, -alignment.scrubRadiusMm)),
      b: project(contact),
      lane: 'below',
      valueMm: alignment.scrubRadiusMm,
      assumed: contactAssumed || isAssumed(...kingpinPaths(facts)),
    },
    {
      kind: 'linear',
      id: 'hubHeight',
      name: 'Hub height',
      a: project([wheelCentre[0], wheelCentre[1], 0]),
      b: above(0),
      lane: out,
      valueMm: wheelCentre[2],
      assumed: isAssumed(point('wheelCentre')),
    },
    ...stroke('bump', 1),
    ...stroke('droop', -1),
    inclination(facts, project, {
      id: 'kingpinInclination',
      name: 'Kingpin inclination',
      valueDeg: alignment.kingpinInclinationDeg,
    }),
    ...armLengths(facts, project),
  ];
}

/** Length of each arm, from the line through its pivots to its joint. */
function armLengths({ corner, layout, isAssumed }: CornerFacts, project: Project): Linear[] {
  const { hardpoints } = corner.suspension;
  const arms = Object.entries(layout.arms);
  const lowest = Math.min(...arms.map(([, { joint }]) => hardpoints[joint][2]));
  return arms.map(([key, { front, rear, joint }]) => {
    const [from, to, end] = [hardpoints[front], hardpoints[rear], hardpoints[joint]];
    const line = normalize(sub(to, from));
    const foot = addScaled(from, line, dot(sub(end, from), line));
    // The lowest arm has its length below, the others above.
    const otherSide: Vec3 = [0, 0, end[2] === lowest ? 1 : -1];
    return {
      kind: 'linear',
      id: `${key}Arm`,
      name: `${capital(key)} arm`,
      a: project(foot),
      b: project(end),
      lane: { from: project(add(end, otherSide)), offsetMm: BESIDE_MM },
      valueMm: distanceFromLine(end, from, to),
      assumed: isAssumed(...[front, rear, joint].map(point)),
    };
  });
}

/** Dimensions of the side view. */
export function sideDimensions(facts: CornerFacts, project: Project): Dimension[] {
  const { corner, alignment, layout, wheel, tyre, forward, isAssumed } = facts;
  const { contact, wheelCentre, spin } = wheel;
  const { hardpoints } = corner.suspension;
  const [lower, upper] = [hardpoints[layout.kingpin.lower], hardpoints[layout.kingpin.upper]];
  const [tyrePart] = entries(corner, 'tyre');
  const [wheelPart] = entries(corner, 'wheel');
  const middle = addScaled(wheelCentre, spin, tyre.planeMm);
  const kingpinAssumed = isAssumed(...kingpinPaths(facts));
  const tyreAcross: Linear[] =
    tyrePart === undefined
      ? []
      : [
          {
            kind: 'linear',
            id: 'tyreDiameter',
            name: 'Tyre',
            sign: 'Ø ',
            a: project(addScaled(middle, forward, tyre.radiusMm)),
            b: project(addScaled(middle, forward, -tyre.radiusMm)),
            lane: 'below',
            valueMm: tyreDimensions(tyrePart).overallDiameterMm,
            assumed: isAssumed(...tyreFields(facts, tyrePart, 'overallDiameter')),
          },
        ];
  return [
    {
      kind: 'linear',
      id: 'trail',
      name: 'Trail',
      a: project(addScaled(contact, forward, alignment.mechanicalTrailMm)),
      b: project(contact),
      lane: 'below',
      valueMm: alignment.mechanicalTrailMm,
      assumed: kingpinAssumed || isAssumed(...contactPaths(facts)),
    },
    ...tyreAcross,
    inclination(facts, project, { id: 'caster', name: 'Caster', valueDeg: alignment.casterDeg }),
    {
      kind: 'linear',
      id: 'jointSpacing',
      name: 'Joint spacing',
      a: project(lower),
      b: project(upper),
      // In front of the rim, where no other part is.
      lane: {
        from: project(addScaled(lower, forward, -1)),
        offsetMm: BESIDE_MM / 2,
        clearMm: wheelPart === undefined ? 0 : rimDiameterMm(wheelPart.diameterCode) / 2,
      },
      valueMm: distance(lower, upper),
      assumed: kingpinAssumed,
    },
  ];
}

/** Dimensions of the top view: the legs of the arms, and the tie rod. */
export function topDimensions({ corner, layout, isAssumed }: CornerFacts, project: Project): Dimension[] {
  const { hardpoints } = corner.suspension;
  const legs = Object.entries(layout.arms).flatMap(([key, { front, rear, joint }], place) =>
    [front, rear].map((pivot, leg): Linear => {
      const other = hardpoints[leg === 0 ? rear : front];
      return {
        kind: 'linear',
        id: `${key}Arm${leg === 0 ? 'Front' : 'Rear'}`,
        name: `${capital(key)} arm ${leg === 0 ? 'front' : 'rear'}`,
        a: project(hardpoints[pivot]),
        b: project(hardpoints[joint]),
        lane: { from: project(lerp(other, hardpoints[joint], 0.5)), offsetMm: BESIDE_MM * (1 + place) },
        valueMm: distance(hardpoints[pivot], hardpoints[joint]),
        assumed: isAssumed(point(pivot), point(joint)),
      };
    }),
  );
  if (layout.tieRod === undefined) return legs;
  const { inner, outer } = layout.tieRod;
  return [
    ...legs,
    {
      kind: 'linear',
      id: 'tieRod',
      name: 'Tie rod',
      a: project(hardpoints[inner]),
      b: project(hardpoints[outer]),
      lane: { from: project(hardpoints.wheelCentre), offsetMm: BESIDE_MM },
      valueMm: distance(hardpoints[inner], hardpoints[outer]),
      assumed: isAssumed(point(inner), point(outer)),
    },
  ];
}
