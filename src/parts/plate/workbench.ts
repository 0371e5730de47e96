import { besideChassis, SHAPE_TONE, type WorkbenchKind } from '../workbenchKind.ts';

const SIDE_MM = 80;

export const plate: WorkbenchKind<'plate'> = {
  start: (corner) => ({
    outline: [
      [0, 0],
      [SIDE_MM, 0],
      [SIDE_MM, SIDE_MM],
      [0, SIDE_MM],
    ].map(([x, z]) => besideChassis(corner, [x, 0, z])),
    thickness: 6,
  }),
  groups: {},
  solids: { plate: { tone: SHAPE_TONE, key: [['thickness', '', ' thick']] } },
};
