import { USUAL_RIM } from '../wheel/workbench.ts';
import { firstOf, type WorkbenchKind } from '../workbenchKind.ts';

/** Usual tyre on a rim: common practice, no source. */
export const usualTyre = (rimCode: number): string => `225/60R${rimCode}`;

export const tyre: WorkbenchKind<'tyre'> = {
  start: (corner) => ({
    designation: usualTyre(firstOf(corner, 'wheel')?.diameterCode ?? USUAL_RIM.code),
  }),
  groups: {},
  solids: { tyre: { tone: '#4d5052', glass: 0.2, key: [['designation', '', '']] } },
};
