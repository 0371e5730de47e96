import { describe, expect, it } from 'vitest';
import { assemblyStep } from '../../../src/design/assemblyStep.ts';
import { type AssemblyStudy, studyAssembly } from '../../../src/studies/assembly/assembly.ts';
import { boltsOf, entryOf } from '../../solids/benchCorner.ts';
import { addCube, atTheWheel } from './atTheWheel.ts';

const blockLines = ({ unreachable }: AssemblyStudy): string[] =>
  unreachable.flatMap(({ body, blocks }) => blocks.map(({ solidId }) => `${body.label}: ${solidId}`));

/** The cycle of precedences because of which a fastener is never reached. */
function cycleOf({ unreachable }: AssemblyStudy, label: string) {
  const way = unreachable.find(({ body }) => body.label === label);
  if (way?.proposed.kind !== 'never') throw new Error(`${label} can be reached in some order`);
  return way.proposed.cycle;
}

describe('the order of assembly of a corner', () => {
  it('is unchanged if hub bolts from behind and wheel nuts are not blocked', async () => {
    const corner = atTheWheel();
    corner.parts.push(boltsOf({ joins: 'hubMount' }), boltsOf({ joins: 'wheel' }));
    const study = await studyAssembly(corner);
    expect(blockLines(study)).toEqual([]);
    expect(study.order.changes).toEqual([]);
    expect(study.contradictions).toEqual([]);
    expect(study.steps).toContainEqual({ id: 'wheel', step: 3 });
    expect(study.steps.map(({ id }) => id)).not.toContain('tyre');
  });

  it('lists a cube behind one bolt with the bolt and its end, and puts the cube after the bolts', async () => {
    const corner = atTheWheel();
    corner.parts.push(boltsOf({ joins: 'hubMount' }));
    // 60 mm behind the plate, in line with the first bolt: clear of its head (7.5 mm high, removed over 24 mm), but
    // in the way of the socket with its drive.
    addCube(corner, 'cube', [0, -75 - 12 - 60, 55], 20);
    const study = await studyAssembly(corner);
    expect(blockLines(study)).toEqual(['hubMount 1, socket on its head: cube']);
    expect(study.order.changes).toEqual([{ id: 'cube', from: 0, to: 2 }]);
    expect(study.unreachable[0].proposed).toEqual({ kind: 'reached', handleDeg: undefined });
    // A cube fitted after the bolts is not in the way.
    const later = await studyAssembly(corner, { steps: { cube: 2 } });
    expect(blockLines(later)).toEqual([]);
    expect(later.order.changes).toEqual([]);
  });

  it("uses the file's steps instead of the defaults, and mounts a tyre with its wheel", async () => {
    const corner = atTheWheel();
    corner.parts.push(boltsOf({ joins: 'hubMount' }));
    addCube(corner, 'cube', [0, -75 - 12 - 60, 55], 20);
    Object.assign(corner.parts[corner.parts.length - 1], { fitted: 2 });
    entryOf(corner, 'wheel').fitted = 7;
    const study = await studyAssembly(corner);
    expect(blockLines(study)).toEqual([]);
    expect(study.steps).toContainEqual({ id: 'cube', step: 2 });
    expect(study.steps).toContainEqual({ id: 'wheel', step: 7 });
    expect(assemblyStep(corner, entryOf(corner, 'tyre'))).toBe(7);
    expect(assemblyStep(corner, entryOf(corner, 'rotor'))).toBe(2);
  });

  it("has no solution for heads under the hub's own flange: the hub would have to come after its bolts", async () => {
    const corner = atTheWheel();
    entryOf(corner, 'hub').housingDiameter = 70;
    corner.parts.push(boltsOf({ joins: 'hubMount', headSide: 'outboard' }));
    const study = await studyAssembly(corner);
    expect(blockLines(study)).toContain('hubMount 1, socket on its head: hub');
    const cycle = cycleOf(study, 'hubMount 1, socket on its head');
    expect(cycle.map(({ earlier, later }) => `${earlier} ${later}`)).toEqual([
      'hubMount hub',
      'hub hubMount',
    ]);
    for (const { why } of cycle) expect(why).toMatch(/is in the way of|hold/);
  });

  it('is the nearest one in which a fastener can be reached, even if another fastener never can', async () => {
    const corner = atTheWheel();
    entryOf(corner, 'hub').housingDiameter = 70;
    corner.parts.push(boltsOf({ joins: 'hubMount', headSide: 'outboard' }), boltsOf({ joins: 'wheel' }));
    // In front of a wheel nut, 40 mm outside the pad, in line with the topmost stud.
    addCube(corner, 'cube', [0, 7 + 12 + 60, 114.3 / 2], 20);
    const study = await studyAssembly(corner);
    const proposed = new Map(study.unreachable.map(({ body, proposed: { kind } }) => [body.label, kind]));
    expect(proposed.get('hubMount 1, socket on its head')).toBe('never');
    expect(proposed.get('wheel 1, socket on its nut')).toBe('reached');
    expect(study.order.changes).toEqual([{ id: 'cube', from: 0, to: 4 }]);
    expect(study.order.steps).toContainEqual({ id: 'hubMount', step: 1 });
  });

  it('corrects steps that put bolts before the parts that they hold, and lists them', async () => {
    const corner = atTheWheel();
    corner.parts.push(boltsOf({ joins: 'hubMount', fitted: 0 }));
    const study = await studyAssembly(corner);
    expect(blockLines(study)).toEqual([]);
    expect(study.contradictions).toMatchObject([{ earlier: 'hub', later: 'hubMount' }]);
    expect(study.order.changes).toEqual([{ id: 'hubMount', from: 0, to: 1 }]);
  });

  it('lists bolts as blocked by their neighbours if a socket does not fit between them', async () => {
    const corner = atTheWheel();
    Object.assign(entryOf(corner, 'hub'), { mountBoltCount: 12 });
    // 12 bolts on 110 mm are 28.5 mm apart. Less half of an M12 washer, 12 mm, that leaves 16.5 mm for half of a
    // socket.
    corner.parts.push(boltsOf({ joins: 'hubMount', toolDiameter: 34 }));
    const study = await studyAssembly(corner);
    expect(blockLines(study)).toContain('hubMount 1, socket on its head: hubMount');
    const ring = cycleOf(study, 'hubMount 1, socket on its head');
    expect(ring).toMatchObject([{ earlier: 'hubMount', later: 'hubMount' }]);
    const slim = atTheWheel();
    Object.assign(entryOf(slim, 'hub'), { mountBoltCount: 12 });
    slim.parts.push(boltsOf({ joins: 'hubMount', toolDiameter: 32 }));
    expect(blockLines(await studyAssembly(slim)).filter((line) => line.endsWith(': hubMount'))).toEqual([]);
  });

  it('lets a wrench come from any unblocked side, unless the file gives the direction', async () => {
    const wrench = {
      joins: 'hubMount',
      tool: 'openWrench',
      toolLength: 120,
      toolDiameter: 40,
      toolThickness: 9,
    } as const;
    const corner = atTheWheel();
    corner.parts.push(boltsOf(wrench));
    // Above the first bolt, behind the plate, in the swing of a handle that points straight outward.
    addCube(corner, 'cube', [0, -75 - 12 - 30, 55 + 70], 50);
    expect(blockLines(await studyAssembly(corner))).toEqual([]);
    const fixed = atTheWheel();
    fixed.parts.push(boltsOf({ ...wrench, handleDeg: 0 }));
    addCube(fixed, 'cube', [0, -75 - 12 - 30, 55 + 70], 50);
    // The legs of the upright are bent inboard above and below, which blocks the first and the third bolt too.
    const blocked = blockLines(await studyAssembly(fixed));
    expect(blocked).toContain('hubMount 1, open wrench on its head: cube');
    expect(blocked.filter((line) => /^hubMount [24]/.test(line))).toEqual([]);
  });

  it("lists only the held part if it blocks a wrench's head, even if the handle is blocked too", async () => {
    const corner = atTheWheel();
    // The housing's barrel ends 10 mm from the axis of a bolt; a cube is in front of the handle.
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

  it('reports the number of directions tried for a wrench between walls that has none', async () => {
    const corner = atTheWheel();
    corner.parts.push(boltsOf({ joins: 'hubMount', tool: 'openWrench', toolLength: 220 }));
    // Walls around the first bolt, behind the plate: a 220 mm handle does not fit in any direction.
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
