import { describe, expect, it } from 'vitest';
import type { Corner } from '../../src/design/schema.ts';
import { doConvexMeet, type Point2 } from '../../src/math/convex.ts';
import { applyPoint, invert } from '../../src/math/rigid.ts';
import { buildUpright } from '../../src/parts/upright/build.ts';
import { uprightPlates } from '../../src/solids/uprightPlates.ts';
import { vehicleFromWheelAxis } from '../../src/solids/wheelFrame.ts';
import { minimalCorner } from '../design/fixtures.ts';
import { readDesign } from '../design/readDesign.ts';
import { between, mulberry32 } from '../oracles/random.ts';
import { contextOf, entryOf, jitteredCorner } from './benchCorner.ts';

const SEED = 88;

const CHORD_MM = 0.1;

/** Whether a place is in a shape, to within the chord error of the solid. */
const isIn = (plan: readonly Point2[], [x, z]: Point2) =>
  doConvexMeet(
    plan,
    [0, 1, 2, 3].map((k): Point2 => {
      const at = (k * Math.PI) / 2;
      return [x + 1.5 * CHORD_MM * Math.cos(at), z + 1.5 * CHORD_MM * Math.sin(at)];
    }),
  );

const cornerOf = (source: unknown): Corner => readDesign(source).corner;

describe('the plates of an upright, projected along the wheel axis', () => {
  it(`contain everything drawn beyond the pad except the tie rod's boss; seed ${SEED}`, async () => {
    const random = mulberry32(SEED);
    for (let trial = 0; trial < 12; trial++) {
      const corner = jitteredCorner(random);
      const entry = entryOf(corner, 'upright');
      entry.boxDepth = trial % 2 === 0 ? 0 : entry.plateThickness + 20;
      entry.kickOutRadius = between(random, 40, 90);
      const [solid] = buildUpright(entry, await contextOf(corner, CHORD_MM));
      const plates = uprightPlates(corner);
      const wheelFromVehicle = invert(vehicleFromWheelAxis(corner.suspension));
      const tieRod = applyPoint(wheelFromVehicle, corner.suspension.hardpoints.tieRodOuter);
      const { diameter, height } = entry.jointMounts;
      const { positions } = solid.mesh;
      let beyond = 0;
      for (let i = 0; i < positions.length; i += 3) {
        const [x, , z] = applyPoint(wheelFromVehicle, [positions[i], positions[i + 1], positions[i + 2]]);
        if (Math.hypot(x, z) < entry.hubMount.diameter / 2 + 0.2) continue;
        if (Math.hypot(x - tieRod[0], z - tieRod[2]) < entry.jointGap + height + diameter) continue;
        const held = plates.some(({ plan }) => plan.some((piece) => isIn(piece, [x, z])));
        expect(held, `seed ${SEED}, upright ${trial}, ${x} ${z}`).toBe(true);
        beyond += 1;
      }
      expect(beyond).toBeGreaterThan(30);
    }
  });

  it('begin at the axis for a boxed leg, and at the edge of the pad for a leg of a single plate', () => {
    const source = minimalCorner();
    const upright = source.parts.find((part) => part.kind === 'upright');
    if (upright === undefined) throw new Error('no upright');
    const holdsAxis = () => uprightPlates(cornerOf(source))[0].plan.some((piece) => isIn(piece, [0, 0]));
    expect(holdsAxis()).toBe(false);
    upright.boxDepth = 40;
    expect(holdsAxis()).toBe(true);
  });

  it('include parts of kind plate along the axis, but not across it or on other carriers', () => {
    const source = minimalCorner();
    const [x, y, z] = [40, 740, 370];
    const plate = { kind: 'plate', carrier: 'upright', thickness: 6 } as const;
    const standing: [number, number, number][] = [
      [x, y, z - 30],
      [x, y + 40, z - 30],
      [x, y + 40, z + 30],
      [x, y, z + 30],
    ];
    const across: [number, number, number][] = [
      [x, y, z],
      [x + 50, y, z],
      [x + 50, y, z + 50],
    ];
    source.parts.push(
      { id: 'strake', label: 'Side plate', ...plate, outline: standing },
      { id: 'across', ...plate, outline: across },
      { id: 'ofChassis', ...plate, carrier: 'chassis', outline: standing },
    );
    const plates = uprightPlates(cornerOf(source));
    expect(plates.map(({ id, name }) => `${id}: ${name}`)).toEqual([
      'upperLeg: upper leg',
      'lowerLeg: lower leg',
      'steeringArm: steering arm',
      'strake: Side plate',
    ]);
    const [piece] = plates[3].plan;
    // Edge-on except for camber and toe of a degree: 6 mm thick, 60 mm long.
    const [xs, zs] = [piece.map(([px]) => px), piece.map(([, pz]) => pz)];
    expect(Math.max(...xs) - Math.min(...xs)).toBeGreaterThan(6);
    expect(Math.max(...xs) - Math.min(...xs)).toBeLessThan(7.5);
    expect(Math.max(...zs) - Math.min(...zs)).toBeGreaterThan(60);
    expect(Math.max(...zs) - Math.min(...zs)).toBeLessThan(62.5);
  });
});
