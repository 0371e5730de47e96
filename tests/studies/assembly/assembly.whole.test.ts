import { describe, expect, it } from 'vitest';
import { assemblyStep } from '../../../src/design/assemblyStep.ts';
import type { Corner } from '../../../src/design/schema.ts';
import { applyPoint } from '../../../src/math/rigid.ts';
import { axialStack, vehicleFromWheelAxis } from '../../../src/solids/wheelFrame.ts';
import { type AssemblyStudy, studyAssembly } from '../../../src/studies/assembly/assembly.ts';
import { benchCorner, boltsOf, entryOf } from '../../solids/benchCorner.ts';

/** The bench corner without what moves about the upright: upright, hub, rotor, caliper, wheel and tyre. */
function atTheWheel(): Corner {
  const corner = benchCorner();
  corner.parts = corner.parts.filter(({ kind }) =>
    ['wheel', 'tyre', 'hub', 'rotor', 'caliper', 'upright'].includes(kind),
  );
  // The ears stand beyond the ends of the body, which leaves room for their bolts.
  entryOf(corner, 'caliper').body.length = 90;
  // Nothing of the housing stands out behind the plate.
  entryOf(corner, 'hub').spigotLength = 0;
  return corner;
}

/** A cube on the upright about a place beside the wheel axis, depth from the hub's mounting face. */
function addCube(corner: Corner, id: string, [x, depth, z]: [number, number, number], side: number): void {
  const { hubFaceY } = axialStack(corner);
  corner.parts.push({
    id,
    kind: 'box',
    allowance: 0,
    carrier: 'upright',
    centre: [...applyPoint(vehicleFromWheelAxis(corner.suspension), [x, hubFaceY + depth, z])],
    size: [side, side, side],
    rollDeg: 0,
    pitchDeg: 0,
    yawDeg: 0,
  });
}

const told = ({ unreachable }: AssemblyStudy): string[] =>
  unreachable.flatMap(({ body, blocks }) => blocks.map(({ solidId }) => `${body.label}: ${solidId}`));

/** The ring of reasons for which a fastener is never reached. */
function ringOf({ unreachable }: AssemblyStudy, label: string) {
  const way = unreachable.find(({ body }) => body.label === label);
  if (way?.proposed.kind !== 'never') throw new Error(`${label} was never to be reached`);
  return way.proposed.ring;
}

describe('the order of assembly of a corner', () => {
  it('nothing is in the way of hub bolts from behind, nor of wheel nuts: the usual order stays', async () => {
    const corner = atTheWheel();
    corner.parts.push(boltsOf({ joins: 'hubMount' }), boltsOf({ joins: 'wheel' }));
    const study = await studyAssembly(corner);
    expect(told(study)).toEqual([]);
    expect(study.order.changes).toEqual([]);
    expect(study.contradictions).toEqual([]);
    expect(study.steps).toContainEqual({ id: 'wheel', step: 3 });
    expect(study.steps.map(({ id }) => id)).not.toContain('tyre');
  });

  it('a cube behind one bolt is told with the bolt and the end, and comes after the bolts', async () => {
    const corner = atTheWheel();
    corner.parts.push(boltsOf({ joins: 'hubMount' }));
    // 60 mm behind the plate, in line with the first bolt: out of the way of its head (7.5 mm and 24 mm out), in that of
    // the socket with its drive.
    addCube(corner, 'cube', [0, -75 - 12 - 60, 55], 20);
    const study = await studyAssembly(corner);
    expect(told(study)).toEqual(['hubMount 1, socket on its head: cube']);
    expect(study.order.changes).toEqual([{ id: 'cube', from: 0, to: 2 }]);
    expect(study.unreachable[0].proposed).toEqual({ kind: 'reached', handleDeg: undefined });
    // Put on after them from the start, it is in nobody's way.
    const later = await studyAssembly(corner, { steps: { cube: 2 } });
    expect(told(later)).toEqual([]);
    expect(later.order.changes).toEqual([]);
  });

  it('steps that the file gives go before the usual ones, and a tyre goes on with its wheel', async () => {
    const corner = atTheWheel();
    corner.parts.push(boltsOf({ joins: 'hubMount' }));
    addCube(corner, 'cube', [0, -75 - 12 - 60, 55], 20);
    Object.assign(corner.parts[corner.parts.length - 1], { fitted: 2 });
    entryOf(corner, 'wheel').fitted = 7;
    const study = await studyAssembly(corner);
    expect(told(study)).toEqual([]);
    expect(study.steps).toContainEqual({ id: 'cube', step: 2 });
    expect(study.steps).toContainEqual({ id: 'wheel', step: 7 });
    expect(assemblyStep(corner, entryOf(corner, 'tyre'))).toBe(7);
    expect(assemblyStep(corner, entryOf(corner, 'rotor'))).toBe(2);
  });

  it("heads under the hub's own flange cannot be turned in any order: the hub would have to come after its bolts", async () => {
    const corner = atTheWheel();
    entryOf(corner, 'hub').housingDiameter = 70;
    corner.parts.push(boltsOf({ joins: 'hubMount', headSide: 'outboard' }));
    const study = await studyAssembly(corner);
    expect(told(study)).toContain('hubMount 1, socket on its head: hub');
    const ring = ringOf(study, 'hubMount 1, socket on its head');
    expect(ring.map(({ earlier, later }) => `${earlier} ${later}`)).toEqual(['hubMount hub', 'hub hubMount']);
    for (const { why } of ring) expect(why).toMatch(/is in the way of|hold/);
  });

  it('what can be reached in another order is told beside what never can, with the order nearest to the given one', async () => {
    const corner = atTheWheel();
    entryOf(corner, 'hub').housingDiameter = 70;
    corner.parts.push(boltsOf({ joins: 'hubMount', headSide: 'outboard' }), boltsOf({ joins: 'wheel' }));
    // Before a wheel nut, 40 mm out of the pad, in line with the stud straight above.
    addCube(corner, 'cube', [0, 7 + 12 + 60, 114.3 / 2], 20);
    const study = await studyAssembly(corner);
    const proposed = new Map(study.unreachable.map(({ body, proposed: { kind } }) => [body.label, kind]));
    expect(proposed.get('hubMount 1, socket on its head')).toBe('never');
    expect(proposed.get('wheel 1, socket on its nut')).toBe('reached');
    expect(study.order.changes).toEqual([{ id: 'cube', from: 0, to: 4 }]);
    expect(study.order.steps).toContainEqual({ id: 'hubMount', step: 1 });
  });

  it('steps that have bolts before what they hold are told, and put right', async () => {
    const corner = atTheWheel();
    corner.parts.push(boltsOf({ joins: 'hubMount', fitted: 0 }));
    const study = await studyAssembly(corner);
    expect(told(study)).toEqual([]);
    expect(study.contradictions).toMatchObject([{ earlier: 'hub', later: 'hubMount' }]);
    expect(study.order.changes).toEqual([{ id: 'hubMount', from: 0, to: 1 }]);
  });

  it('bolts so near each other that a socket does not go between stand in their own way', async () => {
    const corner = atTheWheel();
    Object.assign(entryOf(corner, 'hub'), { mountBoltCount: 12 });
    // 12 on 110 mm: 28.5 mm apart, less half of an M12's washer, 12 mm, leaves 16.5 mm for half of a socket.
    corner.parts.push(boltsOf({ joins: 'hubMount', toolDiameter: 34 }));
    const study = await studyAssembly(corner);
    expect(told(study)).toContain('hubMount 1, socket on its head: hubMount');
    const ring = ringOf(study, 'hubMount 1, socket on its head');
    expect(ring).toMatchObject([{ earlier: 'hubMount', later: 'hubMount' }]);
    const slim = atTheWheel();
    Object.assign(entryOf(slim, 'hub'), { mountBoltCount: 12 });
    slim.parts.push(boltsOf({ joins: 'hubMount', toolDiameter: 32 }));
    expect(told(await studyAssembly(slim)).filter((line) => line.endsWith(': hubMount'))).toEqual([]);
  });

  it('a wrench comes from where there is room, unless the file says from where', async () => {
    const wrench = {
      joins: 'hubMount',
      tool: 'openWrench',
      toolLength: 120,
      toolDiameter: 40,
      toolThickness: 9,
    } as const;
    const corner = atTheWheel();
    corner.parts.push(boltsOf(wrench));
    // Above the first bolt, where a handle that points straight outward swings, behind the plate.
    addCube(corner, 'cube', [0, -75 - 12 - 30, 55 + 70], 50);
    expect(told(await studyAssembly(corner))).toEqual([]);
    const fixed = atTheWheel();
    fixed.parts.push(boltsOf({ ...wrench, handleDeg: 0 }));
    addCube(fixed, 'cube', [0, -75 - 12 - 30, 55 + 70], 50);
    // The legs of the upright are kicked inboard above and below, in the way of the first bolt and the third too.
    const blocked = told(await studyAssembly(fixed));
    expect(blocked).toContain('hubMount 1, open wrench on its head: cube');
    expect(blocked.filter((line) => /^hubMount [24]/.test(line))).toEqual([]);
  });

  it('a wrench whose head meets what the bolts hold is told with that alone, whatever its handle meets', async () => {
    const corner = atTheWheel();
    // The barrel of the housing ends 10 mm from the axis of a bolt; a cube stands before the handle.
    entryOf(corner, 'hub').housingDiameter = 90;
    corner.parts.push(
      boltsOf({
        joins: 'hubMount',
        headSide: 'outboard',
        tool: 'openWrench',
        toolDiameter: 40,
        toolLength: 120,
      }),
    );
    addCube(corner, 'cube', [0, -75 + 12 + 12, 55 + 80], 20);
    const study = await studyAssembly(corner);
    const tools = study.unreachable.filter(({ body }) => body.stage === 'tool');
    expect(tools).toHaveLength(4);
    for (const { directions, blocks, proposed } of tools) {
      expect(directions).toBe(36);
      expect(blocks.map(({ solidId }) => solidId)).toEqual(['hub.housing']);
      expect(proposed.kind).toBe('never');
    }
  });

  it('a wrench between two walls has no direction, and the study says how many it tried', async () => {
    const corner = atTheWheel();
    corner.parts.push(boltsOf({ joins: 'hubMount', tool: 'openWrench', toolLength: 220 }));
    // Walls all round the first bolt, behind the plate: no handle of 220 mm goes past.
    for (const [id, x, z] of [
      ['above', 0, 165],
      ['below', 0, -65],
      ['front', 115, 50],
      ['rear', -115, 50],
    ] as const)
      addCube(corner, id, [x, -75 - 12 - 90, z], 170);
    const { unreachable } = await studyAssembly(corner);
    const first = unreachable.filter(({ body }) => body.index === 0 && body.stage === 'tool');
    expect(first).toHaveLength(1);
    expect(first[0].directions).toBe(36);
    expect(first[0].blocks.length).toBeGreaterThan(0);
  });
});
