import { BOLT_JOINS } from '../../design/boltsSchema.ts';
import { usualBoltHead } from '../../design/jointBoltHead.ts';
import { pointInFile } from '../../design/origin.ts';
import type { Corner, JointPlace, PartKind, Suspension } from '../../design/schema.ts';
import { JOINT_PLACES } from '../../design/schema.ts';
import { tyreDimensions } from '../../design/tyreSize.ts';
import { add, distance, midpoint, type Vec3 } from '../../math/vec.ts';
import { BOLT_CARRIER } from '../../solids/jointPlace.ts';
import { ballForTilt, damperLengths, HOUSING_WALLS_MM, neededTiltDeg } from './usualLimits.ts';

type Dimensions = Record<string, unknown>;

/** The kinds of parts as people call them, in the order in which a corner is put together. */
export const KIND_NAMES: Readonly<Record<PartKind, string>> = {
  wheel: 'Wheel',
  tyre: 'Tyre',
  hub: 'Hub and bearing housing',
  spacer: 'Spacer',
  rotor: 'Brake rotor',
  caliper: 'Brake caliper',
  upright: 'Upright',
  controlArm: 'Control arm',
  joint: 'Joint',
  tieRod: 'Tie rod',
  damper: 'Damper',
  bolts: 'Bolts',
  tube: 'Tube',
  box: 'Box',
  plate: 'Plate',
};

const STARTING_ROTOR_MM = 280;

/**
 * A part of a kind with dimensions to start from, mm, chosen so that it is sound beside what the corner has: nothing here
 * is measured.
 */
export function startingPart(kind: PartKind, corner: Corner): { kind: PartKind } & Dimensions {
  return { kind, ...dimensionsOf(kind, corner) };
}

function dimensionsOf(kind: PartKind, corner: Corner): Dimensions {
  const { hardpoints } = corner.suspension;
  // Beside the lower arm's front pivot, inboard of it, where the chassis is.
  const beside = pointInFile(corner, add(hardpoints.lowerArmFront, [0, -60, 0])).map(
    Math.round,
  ) as unknown as Vec3;
  switch (kind) {
    case 'wheel':
      return { diameterCode: rimCodeOf(corner), width: '8 in', offset: 25, ...holesOver(corner) };
    case 'tyre':
      return { designation: `225/60R${entryOf(corner, 'wheel')?.diameterCode ?? 17}` };
    case 'hub':
      return {
        ...faceUnder(corner),
        mountDepth: 75,
        housingDiameter: 90,
        mountFlangeDiameter: 140,
      };
    case 'spacer':
      return { place: 'wheel', thickness: 5, ...ringOnStuds(corner) };
    case 'rotor':
      return { diameter: STARTING_ROTOR_MM, thickness: 24, height: 47, ...hatOver(corner) };
    case 'caliper':
      return caliperOver((entryOf(corner, 'rotor')?.diameter ?? STARTING_ROTOR_MM) / 2);
    case 'upright':
      return {
        plateThickness: 12,
        hubMount: { diameter: 145, bore: 80 },
        legWidth: 50,
        kickOutRadius: 78,
        steeringArm: { width: 40, thickness: 16 },
        jointMounts: { diameter: 36, height: BOSS_HEIGHT_MM },
        jointGap: gapToBoltEnds(corner),
      };
    case 'controlArm':
      return {
        arm: corner.parts.some((part) => part.kind === kind && part.arm === 'lower') ? 'upper' : 'lower',
        tubeDiameter: 28,
        pivotDiameter: 40,
        pivotLength: 45,
        cupDiameter: 50,
        cupHeight: 24,
      };
    case 'joint':
      return jointAt(freePlace(corner), corner);
    case 'tieRod':
      return { tubeDiameter: 22 };
    case 'damper':
      return damperIn(corner.suspension);
    case 'bolts':
      return { joins: freeJoin(corner), size: 'M12' };
    case 'tube':
      return { from: add(beside, [-200, 0, 0]), to: add(beside, [200, 0, 0]), diameter: 40 };
    case 'box':
      return { centre: beside, size: [100, 50, 50] };
    case 'plate':
      return {
        outline: (
          [
            [0, 0],
            [80, 0],
            [80, 80],
            [0, 80],
          ] as const
        ).map(([x, z]): Vec3 => add(beside, [x, 0, z])),
        thickness: 6,
      };
  }
}

/** Room for the pilot in a bore, and for the flange in a hat, on the diameter, mm. Common practice, no source. */
const BORE_ROOM_MM = 1;
const HAT_ROOM_MM = 10;
/** Thickness of a hat and of its wall that a rotor starts with, mm. */
const HAT_MM = 7;

/** Holes and bore of a wheel that goes on the hub. */
function holesOver(corner: Corner): Dimensions {
  const hub = entryOf(corner, 'hub');
  if (hub === undefined) return {};
  const { studCount, boltCircle, studDiameter, pilotDiameter } = hub;
  const boltHole = studDiameter + 2;
  return {
    boltCount: studCount,
    boltCircle,
    boltHole,
    centreBore: pilotDiameter + BORE_ROOM_MM,
    padDiameter: Math.max(170, Math.ceil(boltCircle + 2 * boltHole)),
  };
}

/** Flange, studs and pilot of a hub that goes under the wheel and into the rotor. */
function faceUnder(corner: Corner): Dimensions {
  const wheel = entryOf(corner, 'wheel');
  const rotor = entryOf(corner, 'rotor');
  const boltCircle = wheel?.boltCircle ?? 114.3;
  const studDiameter = Math.min(12, (wheel?.boltHole ?? 14) - 2);
  const insideHat = rotor === undefined ? 140 : rotor.hatDiameter - 2 * rotor.hatThickness - HAT_ROOM_MM;
  return {
    flangeDiameter: Math.max(Math.min(140, insideHat), boltCircle + studDiameter),
    studCount: wheel?.boltCount ?? 5,
    boltCircle,
    studDiameter,
    pilotDiameter:
      Math.min(wheel?.centreBore ?? 67, rotor?.centreBore ?? 67, boltCircle - studDiameter - 2) -
      BORE_ROOM_MM,
  };
}

/** A ring that holds the studs and goes over the pilot. */
function ringOnStuds(corner: Corner): Dimensions {
  const hub = entryOf(corner, 'hub');
  if (hub === undefined) return { outerDiameter: 150, innerDiameter: 75 };
  const { boltCircle, studDiameter, pilotDiameter } = hub;
  return {
    outerDiameter: Math.ceil(boltCircle + 2 * studDiameter),
    // Midway between pilot and studs.
    innerDiameter: (pilotDiameter + boltCircle - studDiameter) / 2,
  };
}

/** Hat and bore of a rotor that goes over the hub. */
function hatOver(corner: Corner): Dimensions {
  const hub = entryOf(corner, 'hub');
  if (hub === undefined) return { hatDiameter: 165 };
  return {
    hatDiameter: Math.max(165, hub.flangeDiameter + 2 * HAT_MM + HAT_ROOM_MM),
    centreBore: hub.pilotDiameter + BORE_ROOM_MM,
  };
}

/** A caliper behind the axle over a rotor of so large a radius. */
const caliperOver = (radiusMm: number): Dimensions => ({
  clockingDeg: 90,
  mount: { boltRadius: radiusMm - 30, boltSpacing: Math.min(130, radiusMm - 30), earFace: 34 },
  body: {
    outboardDepth: 40,
    inboardDepth: 60,
    innerRadius: radiusMm - 47,
    outerRadius: radiusMm + 20,
    length: 150,
  },
});

const JOINT_BOLT_MM = 14;
/** Length of a joint's bolt where no boss says, mm. */
const JOINT_BOLT_LENGTH_MM = 80;

const BOSS_HEIGHT_MM = 20;

/** Distance of bosses from their joints at which no joint's bolt stands out of its boss, mm. */
function gapToBoltEnds({ parts }: Corner): number {
  const bolts = parts.flatMap((part) =>
    part.kind === 'joint' && BOLT_CARRIER[part.at] === 'upright' ? [part.boltLength] : [],
  );
  return Math.max(0, Math.max(...(bolts.length > 0 ? bolts : [JOINT_BOLT_LENGTH_MM])) / 2 - BOSS_HEIGHT_MM);
}

/** A joint that tilts as far as the corner takes it, with a bolt that ends flush with the boss of the upright. */
function jointAt(at: JointPlace, corner: Corner): Dimensions {
  const joint = { at, form: 'cup' } as const;
  const needed = neededTiltDeg(corner.suspension, { ...joint, boltDirection: [0, 0, 1] });
  const ball = ballForTilt(needed, JOINT_BOLT_MM);
  const upright = BOLT_CARRIER[at] === 'upright' ? entryOf(corner, 'upright') : undefined;
  return {
    ...joint,
    ...ball,
    housingDiameter: ball.ballDiameter + HOUSING_WALLS_MM,
    boltDiameter: JOINT_BOLT_MM,
    boltLength:
      upright === undefined ? JOINT_BOLT_LENGTH_MM : 2 * (upright.jointGap + upright.jointMounts.height),
  };
}

/** Between the end of a damper's body and the eye on its rod when it is closed, mm. Common practice, no source. */
const CLOSED_GAP_MM = 2;
const EYE_MM = 36;

/** A damper that goes from its shortest to its longest in the corner with room to spare. */
function damperIn(suspension: Suspension): Dimensions {
  const { damper } = suspension;
  const between = damper === undefined ? 400 : distance(damper.chassisMount, damper.armMount);
  const usual = Math.round(0.6 * between);
  const lengths = damperLengths(suspension);
  const whole = { bodyDiameter: 46, rodDiameter: 14, eyeDiameter: EYE_MM };
  if (lengths === undefined) return { ...whole, bodyLength: usual };
  const closedLength = Math.floor(lengths.closedMm);
  return {
    ...whole,
    bodyLength: Math.min(usual, closedLength - EYE_MM / 2 - CLOSED_GAP_MM),
    closedLength,
    openLength: Math.ceil(lengths.openMm),
  };
}

const tenth = (mm: number): number => Math.round(10 * mm) / 10;

/** A group that a part may have or lack, with dimensions to start from; undefined where none are known. */
export function startingGroup(key: string, corner: Corner, part: number | undefined): unknown {
  const entry = part === undefined ? undefined : corner.parts[part];
  const { lowerArmFront, lowerArmRear, lowerJoint, upperJoint } = corner.suspension.hardpoints;
  if (key === 'damper') {
    const pivots = midpoint(lowerArmFront, lowerArmRear);
    const chassisMount = add(pivots, [0, 80, upperJoint[2] - pivots[2] + 120]);
    const rounded = (point: Vec3) => pointInFile(corner, point).map(Math.round);
    return {
      chassisMount: rounded(chassisMount),
      armMount: rounded(midpoint(pivots, lowerJoint)),
      on: 'lowerArm',
    };
  }
  if (key === 'zone')
    return {
      shape: 'sphere',
      centre: pointInFile(corner, corner.suspension.hardpoints.wheelCentre),
      radius: 20,
    };
  switch (entry?.kind) {
    case 'caliper': {
      const { boltRadius, boltSpacing } = entry.mount;
      if (key === 'bracket')
        return {
          thickness: 10,
          innerRadius: Math.round(0.6 * boltRadius),
          width: Math.round(boltSpacing + 30),
        };
      const { length, outerRadius } = entry.body;
      return { along: -Math.round(0.4 * length), radius: Math.round(outerRadius - 15), depth: 20 };
    }
    case 'controlArm':
      return key === 'brace'
        ? { at: 0.35, diameter: Math.round(0.8 * entry.tubeDiameter) }
        : { thickness: 5, length: 80 };
    case 'joint': {
      const { ballDiameter, boltDiameter } = entry;
      if (key === 'housingDirection') return entry.boltDirection;
      if (key === 'boltHead') {
        const { diameter, height } = usualBoltHead(boltDiameter);
        return { diameter: tenth(diameter), height: tenth(height) };
      }
      return { diameter: boltDiameter + Math.min(3, (ballDiameter - boltDiameter) / 2), length: 10 };
    }
    case 'hub': {
      // On the same circle as the bolts that it takes the place of.
      const side = Math.floor(entry.mountBoltCircle / Math.SQRT2);
      return { width: side, height: side };
    }
    case 'rotor': {
      const hub = entryOf(corner, 'hub');
      const edge = Math.min(entry.hatDiameter, hub?.flangeDiameter ?? entry.hatDiameter);
      // As many as studs: each can stand midway between two of them.
      return { count: hub?.studCount ?? 5, circle: Math.round((entry.centreBore + edge) / 2) };
    }
    case 'damper':
      return {
        outerDiameter: Math.round(entry.bodyDiameter + 26),
        seat: Math.round(0.36 * entry.bodyLength),
      };
    case 'wheel': {
      const widthMm = entry.width;
      const inboard = -(entry.backspacing ?? widthMm / 2 + entry.lip + (entry.offset ?? 0));
      const radius = Math.round(entry.diameterCode * 12.7 - entry.wall - entry.dropDepth);
      return [
        { depth: Math.round(inboard), radius },
        { depth: Math.round(inboard + 0.7 * widthMm), radius },
      ];
    }
    default:
      return undefined;
  }
}

/** Between two stations of a measured barrel, mm. */
const NEXT_STATION_MM = 10;

/** An item to follow the last of a list that may grow, mm: a corner between the last and the first, a station further on. */
export function nextItem(items: readonly unknown[]): unknown {
  const [first, last] = [items[0], items[items.length - 1]];
  if (isPoint(first) && isPoint(last)) return midpoint(last, first);
  if (typeof last === 'object' && last !== null && 'depth' in last && typeof last.depth === 'number')
    return { ...last, depth: last.depth + NEXT_STATION_MM };
  return last;
}

const isPoint = (value: unknown): value is Vec3 =>
  Array.isArray(value) && value.length === 3 && value.every((n) => typeof n === 'number');

const entryOf = <K extends PartKind>(corner: Corner, kind: K) =>
  corner.parts.find((part): part is Extract<Corner['parts'][number], { kind: K }> => part.kind === kind);

function rimCodeOf(corner: Corner): number {
  const tyre = entryOf(corner, 'tyre');
  return tyre === undefined ? 17 : tyreDimensions(tyre).rimCode;
}

/** What no bolts hold together yet, of what has the parts for it; the first where there is none. */
function freeJoin(corner: Corner): (typeof BOLT_JOINS)[number] {
  const taken = corner.parts.flatMap((part) => (part.kind === 'bolts' ? [part.joins] : []));
  const possible = {
    hubMount: true,
    caliperMount: entryOf(corner, 'caliper') !== undefined,
    rotor: corner.parts.some((part) => part.kind === 'rotor' && part.hatBolts !== undefined),
    wheel: true,
  };
  return BOLT_JOINS.find((join) => possible[join] && !taken.includes(join)) ?? BOLT_JOINS[0];
}

/** A place that no joint takes; the first where all are taken. */
const freePlace = ({ parts }: Corner): JointPlace =>
  JOINT_PLACES.find((place) => !parts.some((part) => part.kind === 'joint' && part.at === place)) ??
  JOINT_PLACES[0];
