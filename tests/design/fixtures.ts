import type { z } from 'zod';
import type { cornerSchema } from '../../src/design/schema.ts';

/** A corner as in a file: lengths as numbers of mm or as typed, defaults left out. */
export type CornerInput = z.input<ReturnType<typeof cornerSchema>>;
export type EntryInput<K extends CornerInput['parts'][number]['kind']> = Extract<
  CornerInput['parts'][number],
  { kind: K }
>;

/**
 * A valid corner with one of each part that a double-wishbone corner needs: a 17 x 8 wheel with 245/65R17, uniballs
 * at the upright, rod ends on a tie rod ahead of the axle, the caliper behind it. Lengths are typed in several ways.
 * Each call gives a fresh copy that a test may change.
 */
export function minimalCorner(): CornerInput {
  return {
    format: 'daylight.corner',
    version: 1,
    name: 'Bench corner',
    side: 'left',
    unit: 'mm',
    suspension: {
      layout: 'doubleWishboneRack',
      hardpoints: {
        lowerArmFront: [150, 300, 230],
        lowerArmRear: [-180, 300, 230],
        lowerJoint: [0, 700, 220],
        upperArmFront: [110, 360, 500],
        upperArmRear: [-130, 360, 490],
        upperJoint: [-20, 680, 520],
        tieRodInner: [120, 316, 300],
        tieRodOuter: [120, 695, 300],
        wheelCentre: [0, 800, 370],
      },
      damper: { chassisMount: [20, 380, 640], armMount: [0, 580, 235], on: 'lowerArm' },
      camberDeg: -1,
      toeDeg: 0.1,
      travel: { bump: 60, droop: '2 3/8 in' },
      steering: { rackOutboard: 45, rackInboard: 45 },
    },
    parts: [
      { id: 'wheel', kind: 'wheel', diameterCode: 17, width: '8 in', offset: 25, boltCircle: '4 1/2 in' },
      { id: 'tyre', kind: 'tyre', designation: '245/65R17', growth: 4 },
      {
        id: 'hub',
        kind: 'hub',
        flangeDiameter: 140,
        mountDepth: '75 mm ±0.5',
        housingDiameter: 80,
        mountFlangeDiameter: 140,
        spigotDiameter: 76,
        spigotLength: 20,
      },
      {
        id: 'rotor',
        kind: 'rotor',
        diameter: 310,
        thickness: 26,
        innerDiameter: 200,
        hatDiameter: 165,
        height: '1 7/8" ±1/64',
      },
      {
        id: 'caliper',
        kind: 'caliper',
        clockingDeg: 90,
        allowance: 0.5,
        mount: { boltRadius: 125, boltSpacing: 130, earFace: 34 },
        body: { outboardDepth: 40, inboardDepth: 68, innerRadius: 108, outerRadius: 186, length: 190 },
        bracket: { thickness: 10, innerRadius: 74, width: 160 },
        bleedScrew: { along: -80, radius: 170, depth: 20, directionDeg: -60 },
      },
      {
        id: 'upright',
        kind: 'upright',
        plateThickness: 12,
        hubMount: { diameter: 145, bore: 80 },
        legWidth: 50,
        kickOutRadius: 78,
        steeringArm: { width: 40, thickness: 16 },
        jointMounts: { diameter: 36, height: 20 },
        jointGap: 18,
      },
      {
        id: 'lowerArm',
        kind: 'controlArm',
        arm: 'lower',
        tubeDiameter: 32,
        pivotDiameter: 44,
        pivotLength: 50,
        cupDiameter: 56,
        cupHeight: 26,
        brace: { at: 0.35, diameter: 25 },
      },
      {
        id: 'upperArm',
        kind: 'controlArm',
        arm: 'upper',
        tubeDiameter: 25.4,
        pivotDiameter: 38,
        pivotLength: 45,
        cupDiameter: 50,
        cupHeight: 22,
      },
      {
        id: 'lowerUniball',
        kind: 'joint',
        at: 'lowerJoint',
        form: 'cup',
        ballDiameter: 32,
        housingDiameter: 46,
        housingWidth: 24,
        boltDiameter: '5/8 in',
        boltLength: 76,
      },
      {
        id: 'upperUniball',
        kind: 'joint',
        at: 'upperJoint',
        form: 'cup',
        ballDiameter: 28,
        housingDiameter: 42,
        housingWidth: 20,
        boltDiameter: 14,
        boltLength: 76,
      },
      {
        id: 'tieRodEnd',
        kind: 'joint',
        at: 'tieRodOuter',
        form: 'rodEnd',
        ballDiameter: 24,
        housingDiameter: 34,
        housingWidth: 16,
        boltDiameter: 12,
        boltLength: 76,
        shankDiameter: 16,
        shankLength: 45,
      },
      { id: 'tieRod', kind: 'tieRod', tubeDiameter: 22 },
      {
        id: 'damper',
        kind: 'damper',
        bodyDiameter: 46,
        bodyLength: 250,
        rodDiameter: 14,
        closedLength: 400,
        openLength: 500,
        spring: { outerDiameter: 72, seat: 90 },
      },
      { id: 'lowerRail', kind: 'tube', from: [-400, 240, 190], to: [400, 240, 190], diameter: 40 },
    ],
    pairs: [{ between: ['caliper', 'wheel'], target: 3 }],
  };
}

/** `minimalCorner` with the parts of these kinds only. */
export function cornerOf(...kinds: readonly CornerInput['parts'][number]['kind'][]): CornerInput {
  const corner = minimalCorner();
  return { ...corner, parts: corner.parts.filter(({ kind }) => kinds.includes(kind)) };
}

/**
 * `minimalCorner` with few parts, whose pairs stay within the wheel: a sixth of its pairs. It takes a fifth of the time to
 * open or change.
 */
export const smallCorner = (): CornerInput =>
  cornerOf('wheel', 'hub', 'rotor', 'caliper', 'upright', 'controlArm');

/**
 * `minimalCorner` with what turns with the wheel and one tube of the chassis, for tests in which the parts do not matter: a
 * sixth of the time of `smallCorner`, most of which goes into the proof of arms and upright.
 */
export function wheelCorner(): CornerInput {
  return { ...cornerOf('wheel', 'hub', 'rotor', 'tube'), pairs: [] };
}

/**
 * Changes of the caliper of `minimalCorner`: without bracket, and with a body that clears barrel, spokes and rotor. It
 * overlaps the upright at few clockings: depths of overlaps take most of the time of a clocking study.
 */
export const SMALL_CALIPER: Partial<EntryInput<'caliper'>> = {
  bracket: undefined,
  body: {
    outerRadius: 163,
    innerRadius: 130,
    outboardDepth: 20,
    inboardDepth: 45,
    length: 120,
    rotorGap: 5,
    faceGap: 5,
  },
};

/** The first entry of a kind in a corner file; throws if there is none. */
export function entryOf<K extends CornerInput['parts'][number]['kind']>(
  corner: CornerInput,
  kind: K,
): EntryInput<K> {
  const found = corner.parts.find((part): part is EntryInput<K> => part.kind === kind);
  if (found === undefined) throw new Error(`the corner has no ${kind}`);
  return found;
}
