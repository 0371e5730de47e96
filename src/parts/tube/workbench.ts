import { besideChassis, SHAPE_TONE, type WorkbenchKind } from '../workbenchKind.ts';

export const tube: WorkbenchKind<'tube'> = {
  start: (corner) => ({
    from: besideChassis(corner, [-200, 0, 0]),
    to: besideChassis(corner, [200, 0, 0]),
    diameter: 40,
  }),
  groups: {},
  solids: { tube: { tone: SHAPE_TONE, key: [['diameter', 'Ø ', '']] } },
};
