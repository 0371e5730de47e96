import { besideChassis, SHAPE_TONE, type WorkbenchKind } from '../workbenchKind.ts';

export const box: WorkbenchKind<'box'> = {
  start: (corner) => ({ centre: besideChassis(corner, [0, 0, 0]), size: [100, 50, 50] }),
  groups: {},
  solids: { box: { tone: SHAPE_TONE, key: [] } },
};
