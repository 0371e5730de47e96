import { describe, expect, it, vi } from 'vitest';
import { withValue } from '../../src/design/edit.ts';
import { BUILDERS } from '../../src/parts/builders.ts';
import { buildCorner, SetupMemory, setUp, withBodies } from '../../src/sweep/setUp.ts';
import { DesignProblems } from '../../src/units/problem.ts';
import { minimalCorner } from '../design/fixtures.ts';
import { readDesign } from '../design/readDesign.ts';
import { digest } from '../oracles/digest.ts';
import { cases } from '../oracles/random.ts';

const SETTINGS = { travelSteps: 3, steerSteps: 3, limitMm: 40, chordToleranceMm: 1.5 };
const source = minimalCorner();
const at = (id: string) => source.parts.findIndex((part) => part.id === id);

const ready = async (changed: unknown, memory?: SetupMemory) => setUp(readDesign(changed), SETTINGS, memory);

/** Changes of one value each. */
const CHANGES: [string, (string | number)[], unknown][] = [
  ['rotor diameter', ['parts', at('rotor'), 'diameter'], 300],
  ['caliper clocking', ['parts', at('caliper'), 'clockingDeg'], 80],
  ['where the hub mounts', ['parts', at('hub'), 'mountDepth'], 70],
  ['a hardpoint', ['suspension', 'hardpoints', 'lowerJoint', 2], 225],
  ['camber', ['suspension', 'camberDeg'], -2],
  ['the other end of the tie rod', ['suspension', 'hardpoints', 'tieRodInner', 2], 240],
  ["a joint's housing", ['parts', at('tieRodEnd'), 'housingWidth'], 18],
  ["a joint's bolt", ['parts', at('upperUniball'), 'boltDiameter'], 12],
  ["a caliper's mounting", ['parts', at('caliper'), 'mount', 'boltSpacing'], 90],
  ['bump travel', ['suspension', 'travel', 'bump'], 70],
  ['a label', ['parts', at('rotor'), 'label'], 'Second rotor'],
  ['an allowance', ['parts', at('rotor'), 'allowance'], 1],
];

const same = (one: unknown, other: unknown): boolean => digest(one) === digest(other);

describe('a corner set up with a cache', () => {
  it.each(CHANGES.slice(0, cases(9, CHANGES.length)))(
    'equals one set up without a cache: %s',
    async (_, path, value) => {
      const memory = new SetupMemory();
      const before = await ready(source, memory);
      const changed = withValue(source, path, value);
      const fresh = await ready(changed);
      const kept = await ready(changed, memory);
      expect(same(kept.solids, fresh.solids)).toBe(true);
      expect(same(kept.bodies, fresh.bodies)).toBe(true);
      // A setup can be posted to a worker only if it holds no proxies of its source.
      expect(() => structuredClone(kept)).not.toThrow();
      const reused = kept.solids.filter(({ mesh }) => before.solids.some((solid) => solid.mesh === mesh));
      expect(reused.length).toBeGreaterThan(0);
      // The same holds after changing back.
      expect(same((await ready(source, memory)).solids, before.solids)).toBe(true);
    },
  );

  it('rebuilds only the solids and bodies that a change affects', async () => {
    const memory = new SetupMemory();
    const before = await ready(source, memory);
    const after = await ready(withValue(source, ['parts', at('rotor'), 'diameter'], 300), memory);
    const rebuilt = after.solids.filter(({ mesh }, s) => mesh !== before.solids[s].mesh).map(({ id }) => id);
    expect(rebuilt).toContain('rotor');
    expect(rebuilt).not.toContain('wheel');
    expect(rebuilt).not.toContain('lowerArm');
    after.pairs.forEach(({ a, b }, p) => {
      const untouched = !rebuilt.includes(after.solids[a].id) && !rebuilt.includes(after.solids[b].id);
      if (untouched) expect(after.bodies[p].a).toBe(before.bodies[p].a);
    });
  });

  it('builds its solids before its bodies', async () => {
    const memory = new SetupMemory();
    const built = await buildCorner(readDesign(source), SETTINGS, memory);
    expect(built.solids.some(({ mesh }) => memory.bodies.has(mesh))).toBe(false);
    expect(same(withBodies(built, memory), await ready(source))).toBe(true);
    expect(built.solids.every(({ mesh }) => memory.bodies.has(mesh))).toBe(true);
  });

  it('measures the same bodies without the meshes that are only shown, and without other parts', async () => {
    const design = readDesign(source);
    const whole = await ready(source);
    const bare = withBodies(await buildCorner(design, SETTINGS, undefined, { measuredOnly: true }));
    expect(same(bare.bodies, whole.bodies)).toBe(true);
    expect(bare.pairs).toEqual(whole.pairs);
    const ids = ['wheel', 'rotor'];
    const few = await buildCorner(design, SETTINGS, undefined, {
      isWanted: ({ id }) => ids.includes(id),
      measuredOnly: true,
    });
    expect(few.solids.map(({ id }) => id).sort()).toEqual([...ids].sort());
    expect(few.pairs.map(({ zones, targetMm }) => ({ zones, targetMm }))).toEqual(
      whole.pairs
        .filter(({ a, b }) => [a, b].every((solid) => ids.includes(whole.solids[solid].id)))
        .map(({ zones, targetMm }) => ({ zones, targetMm })),
    );
  });

  it('keeps only the last state of a part, and that of the cache it is based on', async () => {
    const wider = withValue(source, ['parts', at('rotor'), 'diameter'], 300);
    const wide = withValue(source, ['parts', at('rotor'), 'diameter'], 302);
    const base = new SetupMemory();
    const rotorOf = async (changed: unknown, memory: SetupMemory) =>
      (await ready(changed, memory)).solids.find(({ id }) => id === 'rotor')?.mesh;
    const first = await rotorOf(source, base);
    const based = new SetupMemory(base);
    const second = await rotorOf(wider, based);
    expect(await rotorOf(wide, based)).not.toBe(second);
    expect(await rotorOf(wider, based)).not.toBe(second);
    expect(await rotorOf(source, based)).toBe(first);
  });

  it('does not build a joint again for a change that it does not read', async () => {
    const memory = new SetupMemory();
    const before = await ready(source, memory);
    const joints = vi.spyOn(BUILDERS, 'joint');
    const after = await ready(withValue(source, ['parts', at('rotor'), 'diameter'], 300), memory);
    expect(joints).not.toHaveBeenCalled();
    const ofJoints = ({ solids }: typeof after) => solids.filter(({ kind }) => kind === 'joint');
    expect(ofJoints(after).length).toBeGreaterThan(0);
    expect(same(ofJoints(after), ofJoints(before))).toBe(true);
    await ready(withValue(source, ['suspension', 'hardpoints', 'lowerJoint', 2], 225), memory);
    expect(joints).toHaveBeenCalled();
    joints.mockRestore();
  });

  it('reuses a mesh that is built again with the same numbers', async () => {
    const memory = new SetupMemory();
    const before = await ready(source, memory);
    // The joint's builder makes bolt and housing together; this changes the bolt alone.
    const joint = source.parts.findIndex((part) => part.kind === 'joint');
    const { id, boltLength } = source.parts[joint] as { id: string; boltLength?: number };
    const longer = withValue(source, ['parts', joint, 'boltLength'], (boltLength ?? 60) + 5);
    const after = await ready(longer, memory);
    const meshIn = ({ solids }: typeof after, solid: string) => solids.find((one) => one.id === solid)?.mesh;
    expect(meshIn(after, id)).toBe(meshIn(before, id));
    expect(meshIn(after, `${id}.bolt`)).not.toBe(meshIn(before, `${id}.bolt`));
  });

  it('keeps its cache after a change that cannot be built', async () => {
    const memory = new SetupMemory();
    const before = await ready(source, memory);
    const bad = withValue(source, ['parts', at('rotor'), 'hatDiameter'], 900);
    await expect(ready(bad, memory)).rejects.toBeInstanceOf(DesignProblems);
    const again = await ready(source, memory);
    expect(again.solids[0].mesh).toBe(before.solids[0].mesh);
  });
});
