import { readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type EntryInput, entryOf, minimalCorner, SMALL_CALIPER } from '../design/fixtures.ts';
import { daylight, newFolder, textFile } from './run.ts';

const LARKRISE = resolve(import.meta.dirname, '../../demo-data/larkrise.corner.json');
const COARSE = ['--chord', '0.4'];

const readJson = (file: string) => JSON.parse(readFileSync(file, 'utf8'));

type Caliper = EntryInput<'caliper'>;

/** Body of a caliper that clears barrel, spokes and rotor, whose pairs no clocking changes. */
const CLEAR_BODY = { outerRadius: 163, outboardDepth: 20, rotorGap: 5, faceGap: 5 };

/** A file with fewer parts: a caliper without a bleed screw, the parts that place it, and the arms. */
function small(
  kinds = ['wheel', 'hub', 'rotor', 'caliper', 'upright', 'controlArm'],
  caliper = SMALL_CALIPER,
): string {
  const { parts, pairs: _, ...corner } = minimalCorner();
  const kept = parts.filter(({ kind }) => kinds.includes(kind));
  for (const part of kept)
    if (part.kind === 'caliper') Object.assign(part, { bleedScrew: undefined }, caliper);
  return textFile(JSON.stringify({ ...corner, parts: kept }));
}

/** The same with the caliper of the bench corner, which overlaps the upright at most angles. */
const withBracket = (body: Partial<Caliper['body']> = {}): string =>
  small(undefined, { body: { ...entryOf(minimalCorner(), 'caliper').body, ...body } });

/** A small file whose caliper can be mounted mirrored. */
function mountable(file = small()): string {
  const source = JSON.parse(readFileSync(file, 'utf8'));
  for (const part of source.parts)
    if (part.kind === 'caliper') part.bleedScrew = { along: 38, radius: 160, depth: 30, directionDeg: 10 };
  return textFile(JSON.stringify(source));
}

describe('daylight fit', () => {
  it('lists the clear regions of the caliper, their borders, and the pairs that no clocking changes', async () => {
    const { code, stdout, stderr } = await daylight(['fit', LARKRISE, '--bleed', '25', ...COARSE]);
    expect([code, stderr]).toEqual([1, '']);
    expect(stdout).toMatch(/caliper at \+95\.0°, its middle 128\.6 mm behind the axle; hub at \+45\.0°/);
    expect(stdout).toMatch(
      /bleed screw 172\.4° from straight above the caliper's middle, its foot [\d.]+ \w+ lower than at the top/,
    );
    expect(stdout).toMatch(
      /Least margin of the pairs that no clocking changes: −0\.\d\d ± 0\.\d\d mm, Wheel 15 × 7 ↔ Four-piston caliper/,
    );
    expect(stdout).toMatch(
      /caliper −5\d\.\d\d° to −52\.43°\n +begins at: .*Upright\n +ends at: the edge of the allowed range/,
    );
    expect(stdout).toMatch(/Candidates, best first/);
    expect(stdout).toContain('Geometry only');
  });

  it('writes a candidate and its assets without other changes, and the engine finds the same margin', async () => {
    const file = textFile(JSON.stringify({ ...readJson(mountable(withBracket())), assets: ['bracket.stl'] }));
    writeFileSync(join(dirname(file), 'bracket.stl'), 'solid');
    const saved = join(newFolder(), 'clocked.corner.json');
    const args = ['--bleed', '30', '--apply', '1', '--save', saved, '--json', ...COARSE];
    const { stdout } = await daylight(['fit', file, ...args]);
    const result = JSON.parse(stdout);
    expect(result).toMatchObject({ format: 'daylight.fit', version: 3, side: 'left', unmet: [] });
    const [best] = result.candidates;
    const source = readJson(file);
    const caliper = source.parts.find(({ kind }: { kind: string }) => kind === 'caliper');
    expect(caliper.clockingDeg).not.toBe(best.caliperDeg);
    caliper.clockingDeg = best.caliperDeg;
    expect(readJson(saved)).toEqual(source);
    expect(readFileSync(join(dirname(saved), 'bracket.stl'), 'utf8')).toBe('solid');
    const checked = JSON.parse((await daylight(['check', saved, '--json', ...COARSE])).stdout);
    const [one, other] = result.mountings[best.mounting].pairs[best.pair].between;
    const pair = checked.pairs.find(
      ({ a, b }: { a: string; b: string }) => (a === one && b === other) || (a === other && b === one),
    );
    expect(Math.abs(pair.worst.marginMm - best.marginMm)).toBeLessThanOrEqual(
      pair.worst.errorMm + best.errorMm,
    );
  });

  it('names the pair that prevents a requirement, and how much is missing', async () => {
    const { code, stdout } = await daylight(['fit', withBracket(), '--caliper-range', '-100,-90', ...COARSE]);
    expect(code).toBe(1);
    expect(stdout).toMatch(
      /No clocking clears with the caliper in its allowed range\.\n +nearest: caliper at/,
    );
    expect(stdout).toMatch(/caliper ↔ upright, \d+\.\d\d mm missing/);
    expect(stdout).toContain('No candidates.');
  });

  it('keeps the bolts of a mount on one side of a plate, and reports if no clocking does', async () => {
    const file = small();
    const free = await daylight(['fit', file, '--unsplit', 'caliper:upperLeg', '--chord', '0.4']);
    expect(free.stdout).toMatch(/Candidates, best first/);
    const source = JSON.parse(readFileSync(file, 'utf8'));
    for (const part of source.parts) if (part.kind === 'upright') part.boxDepth = 40;
    const boxed = textFile(JSON.stringify(source));
    const { code, stdout } = await daylight(['fit', boxed, '--unsplit', 'hub:lowerLeg', '--chord', '0.4']);
    expect(code).toBe(1);
    expect(stdout).toContain(
      'No clocking has the bolts of the hub all on one side of the lower leg, clear or not.',
    );
  });

  it('ranks swept candidates by their worst margin over travel and lock', async () => {
    const args = [
      '--swept',
      '--candidates',
      '2',
      '--travel-steps',
      '3',
      '--steer-steps',
      '3',
      '--chord',
      '0.4',
    ];
    const { stdout, stderr } = await daylight(['fit', small(), ...args, '--json']);
    expect(stderr).toBe('');
    const { candidates } = JSON.parse(stdout);
    expect(candidates.length).toBe(2);
    const worst = candidates.map(
      ({ swept }: { swept: { worst: { leastMarginMm: number | null } | null } }) =>
        swept.worst === null ? Number.POSITIVE_INFINITY : (swept.worst.leastMarginMm ?? Number.NaN),
    );
    expect(worst[0]).toBeGreaterThanOrEqual(worst[1]);
  });

  it('ends with 1 if swept candidates touch at a lock a part that is far at ride height', async () => {
    const source = JSON.parse(readFileSync(withBracket(CLEAR_BODY), 'utf8'));
    const steps = ['--travel-steps', '3', '--steer-steps', '3'];
    const run = async (inboard: number, ...more: string[]) => {
      const rail = { id: 'rail', kind: 'box', size: [60, 10, 160], centre: [-130, inboard, 330] };
      const file = textFile(JSON.stringify({ ...source, parts: [...source.parts, rail] }));
      return daylight(['fit', file, '--caliper', 'behind', '--candidates', '2', '--chord', '0.4', ...more]);
    };
    const swept = await run(650, '--swept', ...steps);
    expect([swept.code, swept.stderr]).toEqual([1, '']);
    expect(swept.stdout).toMatch(
      /^ +1 .* \+\d\.\d\d ± .* mm, caliper ↔ upright +touches: −\d+\.\d\d ± 0\.\d\d mm, caliper ↔ rail$/m,
    );
    const depths = [...swept.stdout.matchAll(/touches: −(\d+\.\d\d)/g)].map(([, mm]) => Number(mm));
    expect(depths).toHaveLength(2);
    expect(depths[0]).toBeLessThanOrEqual(depths[1]);
    expect((await run(650)).code).toBe(0);
    const further = await run(630, '--swept', ...steps);
    expect(further.code).toBe(0);
    expect(further.stdout).toMatch(/^ +1 .* \+\d\.\d\d ± .* mm, caliper ↔ upright +\+\d\.\d\d ± .*/m);
  });

  it('ends with 1 if a joint binds and 2 if a damper is unknown, and reports it once for all clockings', async () => {
    const { parts: all, suspension } = minimalCorner();
    const source = JSON.parse(readFileSync(small(['wheel', 'hub', 'rotor', 'caliper']), 'utf8'));
    const joint = all.find(({ id }) => id === 'lowerUniball');
    const steps = ['--travel-steps', '3', '--steer-steps', '3'];
    const run = async (more: object, ...args: string[]) => {
      const file = textFile(JSON.stringify({ ...source, suspension, parts: [...source.parts, more] }));
      return daylight(['fit', file, '--candidates', '2', '--chord', '0.4', ...args]);
    };
    const tilts = { ...joint, allowedTiltDeg: 4 };
    const swept = await run(tilts, '--swept', ...steps);
    expect([swept.code, swept.stderr]).toEqual([1, '']);
    const sentence = 'At every clocking, over travel and lock: 1 joint binds: lowerUniball.';
    expect(swept.stdout.split(sentence)).toHaveLength(2);
    expect(swept.stdout).toMatch(/^ +1 .* more than 25\.00 mm/m);
    // At ride height the joint has no tilt.
    const still = await run(tilts);
    expect(still.code).toBe(0);
    expect(still.stdout).not.toContain('At every clocking');
    const damper = all.find(({ kind }) => kind === 'damper');
    const unknown = await run({ ...damper, openLength: undefined }, '--swept', ...steps, '--json');
    expect(unknown.code).toBe(2);
    const result = JSON.parse(unknown.stdout);
    expect(result.limits[0]).toMatchObject({ part: 'damper', kind: 'damperOpen', state: 'unknown' });
    expect(result.candidates[0].swept.verdict).toBe('unknown');
  });

  it('lists for each candidate the bolts that cannot be reached, and ends with 1 if none has all within reach', async () => {
    const source = JSON.parse(readFileSync(small(), 'utf8'));
    const nuts = { id: 'nuts', label: 'Wheel nuts', kind: 'bolts', joins: 'wheel', size: 'M12' };
    // Outboard of the stud straight above, 50 mm from the hub's face.
    const lamp = { id: 'lamp', kind: 'box', size: [30, 20, 30], centre: [0, 835, 427] };
    const run = (fitted: number, ...more: string[]) => {
      const parts = [...source.parts, nuts, { ...lamp, fitted }];
      const file = textFile(JSON.stringify({ ...source, parts }));
      return daylight(['fit', file, '--candidates', '2', '--chord', '0.4', ...more]);
    };
    const blocked = await run(0);
    expect([blocked.code, blocked.stderr]).toEqual([1, '']);
    expect(blocked.stdout).toMatch(/^No\. .* Bolts$/m);
    expect(blocked.stdout).toMatch(/^ +1 .* {2}1 not reached$/m);
    expect(blocked.stdout).toContain(
      'at ride height:\n  at every candidate:\n' +
        '    Wheel nuts 1, nut on its way out: lamp in the way; to reach it: fit lamp after Wheel nuts\n',
    );
    const free = await run(4);
    expect([free.code, free.stderr]).toEqual([0, '']);
    expect(free.stdout).toMatch(/^ +1 .* {2}all reached$/m);
    expect(free.stdout).not.toContain('cannot be reached');
    const result = JSON.parse((await run(0, '--json')).stdout);
    expect(result.candidates[0].bolts.unreachable[0]).toMatchObject({
      bolts: 'nuts',
      index: 0,
      stage: 'wayOut',
      end: 'nut',
      blockedBy: ['lamp'],
      known: true,
      inAnotherOrder: true,
      reasons: [],
    });
    expect(result.candidates[0].bolts.order).toContainEqual({ id: 'lamp', step: 4 });
  });

  it('tries every mounting at once, and writes a candidate in its mounting', async () => {
    const source = JSON.parse(readFileSync(mountable(), 'utf8'));
    const saved = join(newFolder(), 'mounted.corner.json');
    const run = (...args: string[]) =>
      daylight(['fit', mountable(), '--mounting', ...args, '--bleed', '30', '--chord', '0.4']);
    const args = ['all', '--candidates', '8', '--json'];
    const result = JSON.parse((await run(...args)).stdout);
    const ways = result.mountings.map(
      (one: { caliperMirrored: boolean; hubBoltsTurned: boolean }) =>
        `${one.caliperMirrored} ${one.hubBoltsTurned}`,
    );
    expect(ways).toEqual(['false false', 'true false']);
    const mirrored = result.candidates.findIndex(({ mounting }: { mounting: number }) => mounting === 1);
    expect(mirrored).toBeGreaterThanOrEqual(0);
    const text = await run('all', '--candidates', '8', '--apply', `${mirrored + 1}`, '--save', saved);
    expect(text.stdout).toMatch(/^Mounted: as drawn\n {2}As drawn, at ride height:/m);
    expect(text.stdout).toMatch(/^Mounted: caliper mirrored\n/m);
    expect(text.stdout).toMatch(/^ +\d {2}caliper mirrored.* {2}[+−]?\d+\.\d° /m);
    const { caliperDeg, hubDeg } = result.candidates[mirrored];
    for (const part of source.parts) {
      if (part.kind === 'caliper') {
        part.clockingDeg = caliperDeg;
        part.bleedScrew.along *= -1;
        part.bleedScrew.directionDeg *= -1;
      }
      if (part.kind === 'hub' && hubDeg !== (part.clockingDeg ?? 0)) part.clockingDeg = hubDeg;
    }
    expect(readJson(saved)).toEqual(source);
    // The same mounting by itself has the same candidate.
    const alone = JSON.parse((await run('mirrored', '--candidates', '8', '--json')).stdout);
    expect(alone.mountings).toEqual([result.mountings[1]]);
    expect(alone.candidates).toContainEqual({ ...result.candidates[mirrored], mounting: 0 });
  });

  it.each([
    [['--bleed', 'x'], 64, /--bleed: "x" is not allowed\. Give a number from 0\.1 to 180\./],
    [['--bleed', '20'], 64, /the caliper has no bleed screw in the file/],
    [['--mounting', 'mirrored'], 64, /--mounting mirrored: the caliper has no "bleedScrew"/],
    [['--mounting', 'both'], 64, /--mounting both: the file has no hub bolts to turn/],
    [
      ['--mounting', 'round'],
      64,
      /--mounting: "round" is not allowed\. Give drawn, mirrored, bolts-turned, both or all\./,
    ],
    [
      ['--unsplit', 'wheel:upperLeg'],
      64,
      /--unsplit: "wheel:upperLeg" is not allowed\. Give caliper:PLATE or hub:PLATE/,
    ],
    [['--unsplit', 'hub:strake'], 64, /no plate "strake".*it has upperLeg, lowerLeg, steeringArm/],
    [['--caliper', 'top'], 64, /--caliper: "top" is not allowed\. Give ahead or behind\./],
    [['--hub-range', '5'], 64, /--hub-range: "5" is not allowed\. Give two numbers/],
    [['--hub-range', '50,10'], 64, /the larger last/],
    [['--save', 'x.json'], 64, /--save needs the number of the candidate/],
    [['--apply', '1'], 64, /--save FILE is missing/],
  ])('%j ends with %i', async (args, code, message) => {
    const ran = await daylight(['fit', small(), ...args]);
    expect([ran.code, ran.stdout]).toEqual([code, '']);
    expect(ran.stderr).toMatch(message);
  });

  it('of a file without a caliper ends with 65', async () => {
    const file = small(['wheel', 'hub', 'upright']);
    const { code, stderr } = await daylight(['fit', file]);
    expect(code).toBe(65);
    expect(stderr).toMatch(/has no part of kind "caliper"/);
  });
});
