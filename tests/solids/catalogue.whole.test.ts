import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Corner } from '../../src/design/schema.ts';
import { BUILDERS } from '../../src/parts/builders.ts';
import { buildSolids } from '../../src/solids/catalogue.ts';
import { DesignProblems } from '../../src/units/problem.ts';
import { readDesign } from '../design/readDesign.ts';
import { benchCorner, boltsOf, entryOf } from './benchCorner.ts';
import { expectSound } from './solidChecks.ts';

const DEMO_DATA = join(import.meta.dirname, '../../demo-data');
const demos = readdirSync(DEMO_DATA).filter((name) => name.endsWith('.corner.json'));

async function problemsOf(corner: Corner) {
  try {
    await buildSolids(corner, 0.2);
  } catch (error) {
    if (error instanceof DesignProblems) return error.problems;
    throw error;
  }
  return [];
}

describe('the solids of a corner', () => {
  test('are in the order of the file, with label, allowance and part index', async () => {
    const corner = benchCorner();
    entryOf(corner, 'hub').label = 'Front hub';
    corner.parts.push(
      { ...entryOf(corner, 'tube'), id: 'extra', carrier: 'rack' },
      {
        kind: 'box',
        id: 'pan',
        allowance: 2,
        carrier: 'chassis',
        centre: [0, 0, 200],
        size: [9, 9, 9],
        rollDeg: 0,
        pitchDeg: 0,
        yawDeg: 0,
      },
      {
        kind: 'plate',
        id: 'web',
        allowance: 0,
        carrier: 'chassis',
        outline: [
          [0, 0, 0],
          [9, 0, 0],
          [0, 9, 0],
        ],
        thickness: 3,
      },
      {
        kind: 'spacer',
        id: 'shim',
        allowance: 0,
        place: 'upright',
        thickness: 3,
        outerDiameter: 130,
        innerDiameter: 80,
      },
      boltsOf({ joins: 'hubMount' }),
    );
    const solids = await buildSolids(corner, 0.2);
    const kinds = new Set(corner.parts.map(({ kind }) => kind));
    expect([...kinds].sort()).toEqual(Object.keys(BUILDERS).sort());
    for (const [i, solid] of solids.entries()) {
      expectSound(solid, solid.id);
      const entry = corner.parts[solid.partIndex];
      expect(solid.id === entry.id || solid.id.startsWith(`${entry.id}.`)).toBe(true);
      expect(solid.allowanceMm).toBe(entry.allowance);
      if (i > 0) expect(solid.partIndex).toBeGreaterThanOrEqual(solids[i - 1].partIndex);
    }
    expect(new Set(solids.map(({ partIndex }) => partIndex)).size).toBe(corner.parts.length);
    expect(new Set(solids.map(({ id }) => id)).size).toBe(solids.length);
    const labels = solids.map(({ label }) => label);
    for (const label of ['Front hub', 'Front hub housing', 'damper body', 'damper rod', 'upright']) {
      expect(labels).toContain(label);
    }
  });

  test('reports each part that cannot be built, and the next call still works', async () => {
    const corner = benchCorner();
    entryOf(corner, 'upright').kickOutRadius = 900;
    entryOf(corner, 'tieRod').endGap = 900;
    const index = (kind: string) => corner.parts.findIndex((part) => part.kind === kind);
    const problems = await problemsOf(corner);
    expect(problems.map(({ path, found }) => ({ path, found }))).toEqual([
      { path: `parts[${index('upright')}]`, found: 'upright' },
      { path: `parts[${index('tieRod')}]`, found: 'tieRod' },
    ]);
    expect(problems[0].message).toMatch(/kickOutRadius 900 mm/);
    expect(problems[1].message).toMatch(/endGap 900 mm/);
    expect(await problemsOf(benchCorner())).toEqual([]);
  });

  test('reports a suspension that cannot be posed', async () => {
    const corner = benchCorner();
    corner.suspension.hardpoints.lowerJoint = [...corner.suspension.hardpoints.upperJoint];
    expect((await problemsOf(corner)).map(({ path }) => path)).toContain('suspension.hardpoints.upperJoint');
  });

  test('gives correct results for concurrent calls', async () => {
    const [one, other] = await Promise.all([
      buildSolids(benchCorner(), 0.2),
      buildSolids(benchCorner(), 0.2),
    ]);
    expect(one).toEqual(other);
  });

  test('rejects a tolerance that is not above 0', async () => {
    await expect(buildSolids(benchCorner(), 0)).rejects.toThrow(/more than 0 mm/);
  });

  test.each(demos)('builds every solid of %s closed and outward', async (name) => {
    const design = readDesign(readFileSync(join(DEMO_DATA, name), 'utf8'));
    for (const solid of await buildSolids(design.corner, 0.2)) expectSound(solid, `${name} ${solid.id}`);
  });
});
