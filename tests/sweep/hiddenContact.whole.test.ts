import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { PairQuery } from '../../src/clearance/query.ts';
import { compose, invert } from '../../src/math/rigid.ts';
import { solvePose } from '../../src/mechanism/solvePose.ts';
import { loadModeller } from '../../src/solids/modeller.ts';
import { sharedVolumeMm3 } from '../../src/solids/sharedVolume.ts';
import { DEFAULT_SETTINGS } from '../../src/sweep/result.ts';
import { meshBeside, type Setup, setUp } from '../../src/sweep/setUp.ts';
import { readDesign } from '../design/readDesign.ts';

type Part = Record<string, unknown> & { id: string };
interface Source {
  parts: Part[];
  suspension: Record<string, unknown>;
}

/** Setup of a demo corner with some parts changed. */
async function changed(demo: string, change: (source: Source) => void): Promise<Setup> {
  const source = JSON.parse(readFileSync(`demo-data/${demo}.corner.json`, 'utf8')) as Source;
  change(source);
  const design = readDesign(source);
  return setUp(design, DEFAULT_SETTINGS);
}

const partOf = (source: Source, id: string): Part => {
  const part = source.parts.find((one) => one.id === id);
  if (part === undefined) throw new Error(`no part ${id}`);
  return part;
};

/** Measured clearance of a pair at a pose, and the volume that the two whole solids share there. */
async function atPose(setup: Setup, ids: readonly [string, string], travelMm = 0, steer = 0) {
  const { solids } = setup;
  const index = setup.pairs.findIndex(({ a, b }) => ids.includes(solids[a].id) && ids.includes(solids[b].id));
  if (index < 0) throw new Error(`${ids} is not measured`);
  const { a, b } = setup.pairs[index];
  const pose = solvePose(setup.mechanism, travelMm, steer);
  if (pose.kind !== 'solved') throw new Error(pose.reason);
  const aFromB = compose(invert(pose.carriers[solids[a].carrier]), pose.carriers[solids[b].carrier]);
  const query = new PairQuery(setup.bodies[index].a, setup.bodies[index].b);
  query.run(aFromB, 60);
  const [one, other] = [meshBeside(solids[a], solids[b]), meshBeside(solids[b], solids[a])];
  const sharedMm3 = sharedVolumeMm3(await loadModeller(), one.mesh, other.mesh, aFromB);
  return { kind: query.kind, mm: query.distanceMm, sharedMm3 };
}

describe("contact of caliper and upright beside the caliper's mount", () => {
  // Clockings of the hill-climb demo with the caliper's body inside the upright.
  it.each([
    [-58, 2, 32],
    [-75, 12, 4000],
    [-100, 12, 4000],
    [-120, 12, 4000],
  ])('is reported at a clocking of %s degrees', async (clockingDeg, leastDepthMm, leastMm3) => {
    const setup = await changed('larkrise', (source) => {
      partOf(source, 'caliper').clockingDeg = clockingDeg;
    });
    const { kind, mm, sharedMm3 } = await atPose(setup, ['caliper', 'upright']);
    expect(sharedMm3).toBeGreaterThan(leastMm3 * 0.9);
    expect(kind).toBe('overlapping');
    expect(mm).toBeLessThan(-leastDepthMm * 0.9);
  });

  it('is not reported if the solids share no volume', async () => {
    const setup = await changed('larkrise', () => {});
    const { kind, sharedMm3 } = await atPose(setup, ['caliper', 'upright']);
    expect(sharedMm3).toBe(0);
    expect(['separated', 'beyond']).toContain(kind);
  });
});

describe('contact of joint and boss beside the joint', () => {
  const atGap = (jointGap: number | string) =>
    changed('gravelbeck', (source) => {
      partOf(source, 'upright').jointGap = jointGap;
    });

  it('is reported for a housing inside a boss that is 12 mm from the centre of the tie-rod end', async () => {
    const { kind, sharedMm3 } = await atPose(await atGap('12 mm'), ['upright', 'tieRodEnd']);
    expect(sharedMm3).toBeGreaterThan(25);
    expect(kind).toBe('overlapping');
  });

  it('is reported with a longer bolt too', async () => {
    const setup = await changed('gravelbeck', (source) => {
      partOf(source, 'upright').jointGap = '12 mm';
      partOf(source, 'tieRodEnd').boltLength = '200 mm';
    });
    const { kind } = await atPose(setup, ['upright', 'tieRodEnd']);
    expect(kind).toBe('overlapping');
    // The bolt's end beyond the boss's far face is measured too, in the steering arm or next to it.
    expect((await atPose(setup, ['upright', 'tieRodEnd.bolt'])).kind).not.toBe('beyond');
  });

  it('is not reported for housing or bolt at the gap of the demo file', async () => {
    const setup = await changed('gravelbeck', () => {});
    for (const id of ['tieRodEnd', 'tieRodEnd.bolt', 'lowerJoint', 'lowerJoint.bolt'])
      expect((await atPose(setup, ['upright', id])).kind, id).not.toBe('overlapping');
  });

  it('is reported for a bolt that reaches through the boss into the leg behind it', async () => {
    const setup = await changed('larkrise', (source) => {
      partOf(source, 'lowerJoint').boltLength = 90;
    });
    expect((await atPose(setup, ['upright', 'lowerJoint.bolt'])).kind).toBe('overlapping');
  });
});

describe('the chord tolerance', () => {
  const withChord = async (chordToleranceMm: number) => {
    const design = readDesign(readFileSync('demo-data/gravelbeck.corner.json', 'utf8'));
    return setUp(design, { ...DEFAULT_SETTINGS, chordToleranceMm });
  };

  it('is rejected if it is too coarse for a bolt, with the part, its value and the largest tolerance allowed', async () => {
    await expect(withChord(1.9)).rejects.toThrow(
      /^parts\[9\]\.boltDiameter: is too small for a chord tolerance of 0\.0748 in; set the chord tolerance to 0\.0703 in or less/,
    );
  });

  it('does not make a joint overlap at any accepted value', async () => {
    const setup = await withChord(1.75);
    const { solids } = setup;
    for (const [index, { a, b }] of setup.pairs.entries()) {
      if (![a, b].some((s) => solids[s].kind === 'jointBolt')) continue;
      const query = new PairQuery(setup.bodies[index].a, setup.bodies[index].b);
      query.run(Float64Array.of(1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0), 60);
      expect(query.kind, `${solids[a].id} ${solids[b].id}`).not.toBe('overlapping');
    }
  });

  it('does not move a pair beside clamped faces below a target that it keeps with fine meshes', async () => {
    const short = async (chordToleranceMm: number) => {
      const { pairs, bodies, solids } = await withChord(chordToleranceMm);
      const names: string[] = [];
      let compared = 0;
      for (const [index, { a, b, moves, zones, targetMm }] of pairs.entries()) {
        if (moves || zones.length === 0) continue;
        compared += 1;
        const query = new PairQuery(bodies[index].a, bodies[index].b);
        query.run(Float64Array.of(1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0), 60);
        if (query.kind !== 'beyond' && !(query.distanceMm - query.errorMm >= targetMm))
          names.push(`${solids[a].id} and ${solids[b].id}`);
      }
      expect(compared).toBeGreaterThan(5);
      return names;
    };
    const fine = await short(0.05);
    for (const coarse of [0.3, 0.5, 1, 1.75]) expect(await short(coarse), `${coarse} mm`).toEqual(fine);
  });
});
