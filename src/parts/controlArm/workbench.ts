import { layoutOf } from '../../layouts/layoutOf.ts';
import { freeName, type WorkbenchKind } from '../workbenchKind.ts';

export const controlArm: WorkbenchKind<'controlArm'> = {
  start({ suspension, parts }) {
    const { arms } = layoutOf(suspension);
    const arm = freeName(arms, (name) =>
      parts.some((part) => part.kind === 'controlArm' && part.arm === name),
    );
    // A layout may have no arms; the schema then refuses the part.
    return { arm, ...arms[arm]?.usual, cupDiameter: 50, cupHeight: 24 };
  },
  groups: {
    brace: ({ tubeDiameter }) => ({ at: 0.35, diameter: Math.round(0.8 * tubeDiameter) }),
    gusset: () => ({ thickness: 5, length: 80 }),
  },
  solids: { controlArm: { tone: '#9584a3', key: [['tubeDiameter', 'tube ', '']] } },
};
