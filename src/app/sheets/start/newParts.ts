import { defaultNumber } from '../../../design/fields.ts';
import type { PartKind } from '../../../design/schema.ts';
import { layoutOf } from '../../../layouts/layoutOf.ts';
import type { NewArm, NewJoint, NewPoints } from '../../../layouts/newCorner.ts';
import type { Vec3 } from '../../../math/vec.ts';
import { usualCaliper } from '../../../parts/caliper/workbench.ts';
import { USUAL_DAMPER } from '../../../parts/damper/workbench.ts';
import { BORE_ROOM_MM, USUAL_HUB } from '../../../parts/hub/workbench.ts';
import { kindOf } from '../../../parts/kindOf.ts';
import { usualHatMm, usualRotorHeightMm } from '../../../parts/rotor/workbench.ts';
import { USUAL_TIE_ROD } from '../../../parts/tieRod/workbench.ts';
import { USUAL_UPRIGHT } from '../../../parts/upright/workbench.ts';
import { padOverMm } from '../../../parts/wheel/workbench.ts';
import type { LengthUnit } from '../../../report/figures.ts';
import { guess, lengthValue, roundMm, withGuessesListed } from './guess.ts';
import { newFit, SHANK_MM } from './newFit.ts';
import { type QuestionKey, START } from './questions.ts';
import type { Sizes } from './sizes.ts';

type Fields = Record<string, unknown>;

/** Suspension and parts of a new corner, in the order of `PLACE`; values that are not answered are listed as assumed. */
export function partsOf(
  answer: (key: QuestionKey) => unknown,
  sizes: Sizes,
  points: NewPoints,
  unit: LengthUnit,
): { suspension: Fields; parts: Fields[] } {
  const usual = (mm: number) => guess(lengthValue(roundMm(mm, unit), unit));
  const exactly = (mm: number) => guess(lengthValue(mm, unit));
  const point = (p: Vec3) => guess(p.map((mm) => lengthValue(mm, unit)));
  const part = (id: string, kind: PartKind, fields: Fields, label = kindOf(kind).name) =>
    withGuessesListed({ id, label, kind, ...fields });

  const circle = answer('boltCircle');
  const studs = answer('studCount');
  const rotorRadius = sizes.rotorDiameter / 2;
  // The spokes meet the barrel outboard of the drop at any wheel offset.
  const spokeDepth = sizes.width / 2 - sizes.wheelOffset - 30;
  const hatMm = usualHatMm(sizes.rotorDiameter, sizes.boltCircle, sizes.flangeDiameter);
  // Spokes that go inboard from the edge of the pad start outside the hat.
  const padMm = Math.max(
    padOverMm(sizes.boltCircle, defaultNumber('wheel', 'boltHole')),
    spokeDepth < 0 ? hatMm : 0,
  );

  const suspension = withGuessesListed({
    layout: START.name,
    hardpoints: Object.fromEntries(Object.entries(points.hardpoints).map(([name, p]) => [name, point(p)])),
    damper: {
      chassisMount: point(points.chassisMount),
      armMount: point(points.armMount),
      on: guess(START.damperOn),
    },
    travel: { bump: answer('bump'), droop: answer('droop') },
    steering: Object.fromEntries(
      Object.entries(START.steering.asked).map(([field, key]) => [field, answer(key)]),
    ),
  });

  const { plateThickness, hubMount, steeringArm } = USUAL_UPRIGHT;
  const fit = newFit(sizes, points, unit);
  const caliper = usualCaliper(rotorRadius);
  const { arms, tieRod, upright } = layoutOf({ layout: START.name });
  const arm = ({ id, label, arm: which }: NewArm) => {
    const { tubeDiameter, cupDiameter, cupHeight } = fit.arms[which];
    const { pivotDiameter, pivotLength } = arms[which].usual;
    return part(
      id,
      'controlArm',
      {
        arm: which,
        tubeDiameter: exactly(tubeDiameter),
        pivotDiameter: usual(pivotDiameter),
        pivotLength: usual(pivotLength),
        cupDiameter: exactly(cupDiameter),
        cupHeight: exactly(cupHeight),
      },
      label,
    );
  };
  const joint = ({ id, label, at, form, bolt }: NewJoint) => {
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
        boltDirection: bolt && guess(bolt),
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
        spokeDepth: spokeDepth < defaultNumber('wheel', 'spokeDepth') ? exactly(spokeDepth) : undefined,
        padDiameter: padMm > defaultNumber('wheel', 'padDiameter') ? usual(padMm) : undefined,
        boltCount: studs,
        boltCircle: circle,
        centreBore: exactly(sizes.pilotDiameter + BORE_ROOM_MM),
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
          mountDepth: exactly(sizes.mountDepth),
          housingDiameter: usual(USUAL_HUB.housingDiameter),
          mountFlangeDiameter: usual(USUAL_HUB.mountFlangeDiameter),
        },
        'Hub',
      ),
      part('rotor', 'rotor', {
        diameter: answer('rotorDiameter'),
        thickness: answer('rotorThickness'),
        hatDiameter: usual(hatMm),
        height: usual(usualRotorHeightMm(sizes.rotorThickness)),
        centreBore: exactly(sizes.pilotDiameter + BORE_ROOM_MM),
      }),
      part('caliper', 'caliper', {
        clockingDeg: guess(caliper.clockingDeg),
        mount: {
          boltRadius: usual(caliper.mount.boltRadius),
          boltSpacing: usual(caliper.mount.boltSpacing),
          earFace: usual(caliper.mount.earFace),
        },
        body: {
          outboardDepth: answer('caliperOutboard'),
          inboardDepth: answer('caliperInboard'),
          innerRadius: usual(caliper.body.innerRadius),
          outerRadius: answer('caliperRadius'),
          length: answer('caliperLength'),
        },
      }),
      ...(upright === undefined
        ? []
        : [
            part('upright', 'upright', {
              plateThickness: usual(plateThickness),
              hubMount: { diameter: usual(hubMount.diameter), bore: usual(hubMount.bore) },
              legWidth: exactly(fit.legWidth),
              kickOutRadius: exactly(fit.kickOutRadius),
              steeringArm: { width: usual(steeringArm.width), thickness: usual(steeringArm.thickness) },
              jointMounts: {
                diameter: exactly(fit.jointMounts.diameter),
                height: exactly(fit.jointMounts.height),
              },
              jointGap: exactly(fit.jointGap),
            }),
          ]),
      ...START.arms.map(arm),
      ...START.joints.map(joint),
      ...(tieRod === undefined
        ? []
        : [part('tieRod', 'tieRod', { tubeDiameter: usual(USUAL_TIE_ROD.tubeDiameter) })]),
      part('damper', 'damper', {
        bodyDiameter: usual(USUAL_DAMPER.bodyDiameter),
        bodyLength: exactly(points.bodyLength),
        rodDiameter: usual(USUAL_DAMPER.rodDiameter),
        closedLength: fit.damper && exactly(fit.damper.closedLength),
        openLength: fit.damper && exactly(fit.damper.openLength),
      }),
    ],
  };
}
