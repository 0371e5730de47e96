import type { Entry } from '../../design/schema.ts';
import { compose, translation } from '../../math/rigid.ts';
import { faceInWords, type PlateMaker } from '../../solids/flatPlates/plateMaker.ts';
import { plateFace } from './build.ts';

/** The plate itself, viewed from the face away from its listed corners. */
export const plateFlatPlates: PlateMaker<Entry<'plate'>> = (entry) => {
  const { corners, vehicleFromFace } = plateFace(entry);
  const vehicleFromPlate = compose(vehicleFromFace, translation([0, 0, entry.thickness / 2]));
  return [
    {
      id: entry.id,
      name: entry.label ?? entry.id,
      thicknessMm: entry.thickness,
      quantity: 1,
      sideUp: faceInWords(vehicleFromPlate),
      outline: { kind: 'path', corners: corners.map((at) => ({ at, bulge: 0 })) },
      origin: 'the mean of the corners',
      openings: [],
      holes: [],
      marks: [],
      bends: [],
      notes: [
        'The file has no holes for this plate: measure them on the parts that it holds, and add them by hand.',
      ],
      vehicleFromPlate,
    },
  ];
};
