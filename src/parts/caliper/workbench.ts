import { rotor } from '../rotor/workbench.ts';
import { firstOf, type WorkbenchKind } from '../workbenchKind.ts';

/** Usual caliper over a rotor of a radius, behind the axle, mm: common practice, no source. */
export const usualCaliper = (rotorRadiusMm: number) => ({
  clockingDeg: 90,
  mount: { boltRadius: rotorRadiusMm - 30, boltSpacing: Math.min(130, rotorRadiusMm - 30), earFace: 34 },
  body: {
    outboardDepth: 24,
    inboardDepth: 60,
    innerRadius: Math.max(0.5 * rotorRadiusMm, rotorRadiusMm - 48),
    outerRadius: rotorRadiusMm + 20,
    length: Math.min(150, rotorRadiusMm),
  },
});

export const caliper: WorkbenchKind<'caliper'> = {
  start: (corner) => usualCaliper(Number((firstOf(corner, 'rotor') ?? rotor.start(corner)).diameter) / 2),
  groups: {
    bracket: ({ mount: { boltRadius, boltSpacing } }) => ({
      thickness: 10,
      innerRadius: Math.round(0.6 * boltRadius),
      width: Math.round(boltSpacing + 30),
    }),
    bleedScrew: ({ body: { length, outerRadius } }) => ({
      along: -Math.round(0.4 * length),
      radius: Math.round(outerRadius - 15),
      depth: 20,
    }),
  },
  solids: { caliper: { tone: '#b57c6d', key: [['clockingDeg', 'at ', '']] } },
};
