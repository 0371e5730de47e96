import { describe, expect, it } from 'vitest';
import { type CornerInput, minimalCorner } from '../design/fixtures.ts';
import { daylight, textFile } from './run.ts';

/** Tie rod and wheel of the bench corner, with a block on the rack in the way of the tie rod, and these rules for pairs. */
function fileWith(pairs: CornerInput['pairs']): string {
  const corner = minimalCorner();
  corner.parts = corner.parts.filter(({ kind }) => ['tieRod', 'wheel', 'tyre'].includes(kind));
  if (pairs?.length)
    corner.parts.push({
      id: 'block',
      label: 'Block',
      kind: 'box',
      carrier: 'rack',
      centre: [120, 370, 300],
      size: [200, 10, 200],
    });
  corner.pairs = pairs;
  return textFile(JSON.stringify(corner));
}

const COARSE = ['--chord', '0.3', '--travel-steps', '3', '--steer-steps', '3'];

describe('audit', () => {
  it('ends with 0 if intended contact explains all shared volume', async () => {
    const ran = await daylight(['audit', fileWith([]), ...COARSE]);
    expect([ran.code, ran.stderr]).toEqual([0, '']);
    expect(ran.stdout).toMatch(/wheel ↔ tyre .* none/);
    expect(ran.stdout).toContain('Intended contact explains all shared volume.');
  });

  it('ends with 1 if a zone hides contact, and lists it', async () => {
    const file = fileWith([
      {
        between: ['tieRod', 'block'],
        zone: { shape: 'sphere', centre: [120, 316, 300], radius: 70 },
      },
    ]);
    const ran = await daylight(['audit', file, ...COARSE]);
    expect([ran.code, ran.stderr]).toEqual([1, '']);
    expect(ran.stdout).toMatch(/tieRod ↔ Block +3\d{3}\.\d +3\d{3}\.\d/);
    expect(ran.stdout).toContain('1 pair with hidden contact.');
    const json = await daylight(['audit', file, ...COARSE, '--json']);
    expect(json.code).toBe(1);
    const { pairs } = JSON.parse(json.stdout);
    expect(pairs).toContainEqual(
      expect.objectContaining({
        between: ['tieRod', 'block'],
        unexplained: expect.objectContaining({ hidden: true }),
      }),
    );
  });

  it('rejects a clocking step of 0', async () => {
    const { code, stderr } = await daylight(['audit', fileWith([]), '--clocking-step', '0']);
    expect(code).toBe(64);
    expect(stderr).toContain('--clocking-step: "0" is not allowed');
  });
});
