import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { withValue } from '../../src/design/edit.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { DesignProblems } from '../../src/design/problem.ts';
import { buildCorner, SetupMemory, setUp, withBodies } from '../../src/sweep/setUp.ts';
import { minimalCorner } from '../design/fixtures.ts';

const SETTINGS = { travelSteps: 3, steerSteps: 3, limitMm: 40, chordToleranceMm: 0.5 };
const source = minimalCorner();
const at = (id: string) => source.parts.findIndex((part) => part.id === id);

function designOf(changed: unknown) {
  const parsed = parseDesign(JSON.stringify(changed));
  if (parsed.kind === 'bad') throw new DesignProblems(parsed.problems);
  return parsed.design;
}

const ready = async (changed: unknown, memory?: SetupMemory) => setUp(designOf(changed), SETTINGS, memory);

/** Changes of one value each, with the solids whose meshes follow from it, those of other parts among them. */
const CHANGES: [string, (string | number)[], unknown][] = [
  ['rotor diameter', ['parts', at('rotor'), 'diameter'], 300],
  ['caliper clocking', ['parts', at('caliper'), 'clockingDeg'], 80],
  ['a label', ['parts', at('rotor'), 'label'], 'Donor rotor'],
  ['an allowance', ['parts', at('rotor'), 'allowance'], 1],
  ['where the hub mounts', ['parts', at('hub'), 'mountDepth'], 70],
  ['a hardpoint', ['suspension', 'hardpoints', 'lowerJoint', 2], 225],
  ['camber', ['suspension', 'camberDeg'], -2],
  ['bump travel', ['suspension', 'travel', 'bump'], 70],
];

/** The same to the last bit: meshes are too large to be compared value by value. */
const digest = (value: unknown): string =>
  JSON.stringify(value, (_, held) =>
    ArrayBuffer.isView(held)
      ? createHash('sha256')
          .update(new Uint8Array(held.buffer, held.byteOffset, held.byteLength))
          .digest('hex')
      : held,
  );
const same = (one: unknown, other: unknown): boolean => digest(one) === digest(other);

describe('a corner set up from what is kept of the last one', () => {
  it.each(CHANGES)('is the same as one set up anew: %s', async (_, path, value) => {
    const memory = new SetupMemory();
    const before = await ready(source, memory);
    const changed = withValue(source, path, value);
    const fresh = await ready(changed);
    const kept = await ready(changed, memory);
    expect(same(kept.solids, fresh.solids)).toBe(true);
    expect(same(kept.bodies, fresh.bodies)).toBe(true);
    // What can be handed to a worker holds no stand-ins of the corner that it was made from.
    expect(() => structuredClone(kept)).not.toThrow();
    const reused = kept.solids.filter(({ mesh }) => before.solids.some((solid) => solid.mesh === mesh));
    expect(reused.length).toBeGreaterThan(0);
    // And back again.
    expect(same((await ready(source, memory)).solids, before.solids)).toBe(true);
  });

  it('makes anew only what a change concerns, its bodies too', async () => {
    const memory = new SetupMemory();
    const before = await ready(source, memory);
    const after = await ready(withValue(source, ['parts', at('rotor'), 'diameter'], 300), memory);
    const madeAnew = after.solids.filter(({ mesh }, s) => mesh !== before.solids[s].mesh).map(({ id }) => id);
    expect(madeAnew).toContain('rotor');
    expect(madeAnew).not.toContain('wheel');
    expect(madeAnew).not.toContain('lowerArm');
    after.pairs.forEach(({ a, b }, p) => {
      const untouched = !madeAnew.includes(after.solids[a].id) && !madeAnew.includes(after.solids[b].id);
      if (untouched) expect(after.bodies[p].a).toBe(before.bodies[p].a);
    });
  });

  it('is there to be seen before it is ready to be measured', async () => {
    const memory = new SetupMemory();
    const built = await buildCorner(designOf(source), SETTINGS, memory);
    expect(built.solids.some(({ mesh }) => memory.bodies.has(mesh))).toBe(false);
    expect(same(withBodies(built, memory), await ready(source))).toBe(true);
    expect(built.solids.every(({ mesh }) => memory.bodies.has(mesh))).toBe(true);
  });

  it('keeps what it held when a change cannot be built', async () => {
    const memory = new SetupMemory();
    const before = await ready(source, memory);
    const bad = withValue(source, ['parts', at('rotor'), 'hatDiameter'], 900);
    await expect(ready(bad, memory)).rejects.toBeInstanceOf(DesignProblems);
    const again = await ready(source, memory);
    expect(again.solids[0].mesh).toBe(before.solids[0].mesh);
  });
});
