import type { WorkbenchKind } from '../workbenchKind.ts';

/** Usual dimensions, mm: common practice, no source. */
export const USUAL_TIE_ROD = { tubeDiameter: 22 };

export const tieRod: WorkbenchKind<'tieRod'> = {
  start: () => USUAL_TIE_ROD,
  groups: {},
  solids: { tieRod: { tone: '#5099a5', key: [['tubeDiameter', 'tube ', '']] } },
};
