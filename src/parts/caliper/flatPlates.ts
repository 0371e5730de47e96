import type { Entry } from '../../design/schema.ts';
import { compose, fromAxes } from '../../math/rigid.ts';
import { caliperMountStack } from '../../solids/caliperMount.ts';
import { caliperHole } from '../../solids/flatPlates/boltHole.ts';
import { regionsOf } from '../../solids/flatPlates/loops.ts';
import { faceInWords, type PlateMaker } from '../../solids/flatPlates/plateMaker.ts';
import { sliceIn } from '../../solids/flatPlates/slice.ts';
import type { Point2 } from '../../solids/simplePolygon.ts';
import { axialStack, vehicleFromWheelAxis, wheelFromClock } from '../../solids/wheelFrame.ts';
import { caliperBracket } from './build.ts';

/** The bracket, viewed from outboard: y outward from the wheel axis, which is the origin. */
export const caliperFlatPlates: PlateMaker<Entry<'caliper'>> = (caliper, context) => {
  const { corner, length } = context;
  const stack = caliperMountStack(corner, caliper);
  const solid = caliperBracket(caliper, context);
  if (solid === undefined || stack.bracket === undefined || caliper.bracket === undefined) return [];
  const { mount, bracket, clockingDeg } = caliper;
  const middleY = axialStack(corner).hubFaceY + (stack.bracket.inboard + stack.bracket.outboard) / 2;
  const clockFromPlate = fromAxes([-1, 0, 0], [0, 0, 1], [0, 1, 0], [0, middleY, 0]);
  const vehicleFromPlate = compose(
    compose(vehicleFromWheelAxis(corner.suspension), wheelFromClock(clockingDeg)),
    clockFromPlate,
  );
  const bolts = [-1, 1].map((side): Point2 => [(side * mount.boltSpacing) / 2, stack.middleRadius]);
  const [{ outline }] = regionsOf(
    sliceIn(solid, clockFromPlate),
    bolts.map((centre) => ({ centre, radiusMm: mount.earDiameter / 2 })),
  );
  return [
    {
      id: `${caliper.id}.bracket`,
      name: `${caliper.label ?? caliper.id}: bracket`,
      thicknessMm: bracket.thickness,
      quantity: 1,
      sideUp: faceInWords(vehicleFromPlate),
      outline,
      origin: `the wheel axis, ${length(bracket.innerRadius)} below the middle of the foot`,
      openings: [],
      holes: bolts.map((at) => ({
        at,
        use: 'caliper bolt',
        ...caliperHole(corner, caliper),
      })),
      marks: [
        {
          at: [
            [0, bracket.innerRadius],
            [0, stack.middleRadius + mount.earDiameter / 2],
          ],
          label: `middle, ${clockingDeg}° clocking`,
        },
      ],
      bends: [],
      notes: ['The solid of the bracket has no holes. Their places are those of the caliper bolts.'],
      vehicleFromPlate,
    },
  ];
};
