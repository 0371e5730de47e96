import { firstOf, type WorkbenchKind } from '../workbenchKind.ts';

export const spacer: WorkbenchKind<'spacer'> = {
  start(corner) {
    const hub = firstOf(corner, 'hub');
    const plain = { place: 'wheel', thickness: 5 } as const;
    if (hub === undefined) return { ...plain, outerDiameter: 150, innerDiameter: 75 };
    const { boltCircle, studDiameter, pilotDiameter } = hub;
    return {
      ...plain,
      outerDiameter: Math.ceil(boltCircle + 2 * studDiameter),
      // Midway between pilot and studs.
      innerDiameter: (pilotDiameter + boltCircle - studDiameter) / 2,
    };
  },
  groups: {},
  solids: { spacer: { tone: '#958b78', key: [['thickness', '', ' thick']] } },
};
