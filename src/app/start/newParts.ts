import type { PartKind } from '../../design/schema.ts';
import type { Vec3 } from '../../math/vec.ts';
import type { LengthUnit } from '../../report/figures.ts';
import { KIND_NAMES } from '../bench/startingParts.ts';
import { guess, lengthValue, roundMm, withGuessesListed } from './guess.ts';
import { type NewJointPlace, newFit, RACK_BOLT, SHANK_MM } from './newFit.ts';
import type { NewPoints } from './newPoints.ts';
import type { Asked } from './questions.ts';
import { hatOverFlangeMm, LEAST_RING_MM, type Sizes, usualRotorHeightMm } from './sizes.ts';

type Fields = Record<string, unknown>;

/** Beyond a bolt hole, the metal that a wheel's pad needs, mm. */
const PAD_EDGE_MM = 24;
const DEFAULT_PAD_MM = 170;
const DEFAULT_SPOKE_DEPTH_MM = 25;

/** Suspension and parts of a new corner, in the order of `PLACE`; what nobody gave is listed as assumed. */
export function partsOf(
  answer: (key: Asked) => unknown,
  sizes: Sizes,
  points: NewPoints,
  unit: LengthUnit,
): { suspension: Fields; parts: Fields[] } {
  const usual = (mm: number) => guess(lengthValue(roundMm(mm, unit), unit));
  const exactly = (mm: number) => guess(lengthValue(mm, unit));
  const point = (p: Vec3) => guess(p.map((mm) => lengthValue(mm, unit)));
  const part = (id: string, kind: PartKind, fields: Fields, label = KIND_NAMES[kind]) =>
    withGuessesListed({ id, label, kind, ...fields });

  const circle = answer('boltCircle');
  const studs = answer('studCount');
  const rotorRadius = sizes.rotorDiameter / 2;
  // The spokes meet the barrel outboard of the drop, however far in the rim stands.
  const spokeDepth = sizes.width / 2 - sizes.wheelOffset - 30;
  const hatMm = Math.min(
    Math.max(150, sizes.boltCircle + 36, hatOverFlangeMm(sizes.flangeDiameter)),
    sizes.rotorDiameter - LEAST_RING_MM,
  );
  // Spokes that run inboard from the edge of the pad have to start outside the hat.
  const padMm = Math.max(sizes.boltCircle + 14 + PAD_EDGE_MM, spokeDepth < 0 ? hatMm : 0);

  const suspension = withGuessesListed({
    layout: 'doubleWishboneRack',
    hardpoints: Object.fromEntries(Object.entries(points.hardpoints).map(([name, p]) => [name, point(p)])),
    damper: {
      chassisMount: point(points.chassisMount),
      armMount: point(points.armMount),
      on: guess('lowerArm'),
    },
    travel: { bump: answer('bump'), droop: answer('droop') },
    steering: { rackOutboard: answer('rack'), rackInboard: answer('rack') },
  });

  const fit = newFit(sizes, points, unit);
  const arm = (which: 'lower' | 'upper') => {
    const scale = which === 'lower' ? 1 : 0.85;
    return part(
      `${which}Arm`,
      'controlArm',
      {
        arm: which,
        tubeDiameter: exactly(fit.tubeDiameter[which]),
        pivotDiameter: usual(40 * scale),
        pivotLength: usual(45 * scale),
        cupDiameter: exactly(fit.cups[which].cupDiameter),
        cupHeight: exactly(fit.cups[which].cupHeight),
      },
      `${which === 'lower' ? 'Lower' : 'Upper'} arm`,
    );
  };
  const joint = (id: string, at: NewJointPlace, form: 'cup' | 'rodEnd', label: string) => {
    const { ballDiameter, housingDiameter, housingWidth, boltDiameter, boltLength } = fit.joints[at];
    return part(
      id,
      'joint',
      {
        at,
        form: guess(form),
        ballDiameter: exactly(ballDiameter),
        housingDiameter: exactly(housingDiameter),
        housingWidth: exactly(housingWidth),
        boltDiameter: exactly(boltDiameter),
        boltLength: exactly(boltLength),
        boltDirection: at === 'tieRodInner' ? guess(RACK_BOLT) : undefined,
        shankDiameter: form === 'rodEnd' ? usual(SHANK_MM.diameter) : undefined,
        shankLength: form === 'rodEnd' ? usual(SHANK_MM.length) : undefined,
      },
      label,
    );
  };

  return {
    suspension,
    parts: [
      part('wheel', 'wheel', {
        diameterCode: answer('diameterCode'),
        width: answer('width'),
        backspacing: answer('backspacing'),
        offset: answer('offset'),
        spokeDepth: spokeDepth < DEFAULT_SPOKE_DEPTH_MM ? exactly(spokeDepth) : undefined,
        padDiameter: padMm > DEFAULT_PAD_MM ? usual(padMm) : undefined,
        boltCount: studs,
        boltCircle: circle,
        centreBore: exactly(sizes.pilotDiameter + 1),
      }),
      part('tyre', 'tyre', { designation: answer('designation') }),
      part(
        'hub',
        'hub',
        {
          flangeDiameter: answer('flangeDiameter'),
          pilotDiameter: answer('pilotDiameter'),
          studCount: studs,
          boltCircle: circle,
          mountDepth: exactly(points.mountDepth),
          housingDiameter: usual(85),
          mountFlangeDiameter: usual(132),
        },
        'Hub',
      ),
      part('rotor', 'rotor', {
        diameter: answer('rotorDiameter'),
        thickness: answer('rotorThickness'),
        hatDiameter: usual(hatMm),
        height: usual(usualRotorHeightMm(sizes.rotorThickness)),
        centreBore: exactly(sizes.pilotDiameter + 1),
      }),
      part('caliper', 'caliper', {
        clockingDeg: guess(90),
        mount: {
          boltRadius: usual(rotorRadius - 30),
          boltSpacing: usual(Math.min(130, rotorRadius - 30)),
          earFace: usual(34),
        },
        body: {
          outboardDepth: answer('caliperOutboard'),
          inboardDepth: answer('caliperInboard'),
          innerRadius: usual(Math.max(0.5 * rotorRadius, rotorRadius - 48)),
          outerRadius: answer('caliperRadius'),
          length: answer('caliperLength'),
        },
      }),
      part('upright', 'upright', {
        plateThickness: usual(12),
        hubMount: { diameter: usual(140), bore: usual(76) },
        legWidth: exactly(fit.legWidth),
        kickOutRadius: exactly(fit.kickOutRadius),
        steeringArm: { width: usual(40), thickness: usual(16) },
        jointMounts: {
          diameter: exactly(fit.jointMounts.diameter),
          height: exactly(fit.jointMounts.height),
        },
        jointGap: exactly(fit.jointGap),
      }),
      arm('lower'),
      arm('upper'),
      joint('lowerJoint', 'lowerJoint', 'cup', 'Lower joint'),
      joint('upperJoint', 'upperJoint', 'cup', 'Upper joint'),
      joint('tieRodEnd', 'tieRodOuter', 'rodEnd', 'Tie-rod end'),
      joint('tieRodInnerEnd', 'tieRodInner', 'rodEnd', 'Inner tie-rod end'),
      part('tieRod', 'tieRod', { tubeDiameter: usual(22) }),
      part('damper', 'damper', {
        bodyDiameter: usual(46),
        bodyLength: exactly(points.bodyLength),
        rodDiameter: usual(14),
        closedLength: fit.damper && exactly(fit.damper.closedLength),
        openLength: fit.damper && exactly(fit.damper.openLength),
      }),
    ],
  };
}
