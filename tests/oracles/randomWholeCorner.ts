import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { noAnswers } from '../../src/app/sheets/start/answers.ts';
import { newCorner } from '../../src/app/sheets/start/newCorner.ts';
import type { Design } from '../../src/design/design.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { lazily } from '../../src/studies/clocking/studyPairs.ts';
import type { SweepSettings } from '../../src/sweep/result.ts';
import { type Built, buildCorner, type Setup, withBodies } from '../../src/sweep/setUp.ts';
import { DesignProblems } from '../../src/units/problem.ts';
import { minimalCorner } from '../design/fixtures.ts';
import { between, mulberry32 } from './random.ts';

const DEMO_DATA = join(import.meta.dirname, '../../demo-data');
export const DEMOS = ['larkrise', 'gravelbeck-mm', 'stoneyholt'] as const;

/** The source of a demo corner, as in its file. */
export const demoSource = (name: (typeof DEMOS)[number]): unknown =>
  JSON.parse(readFileSync(join(DEMO_DATA, `${name}.corner.json`), 'utf8'));

/** Fields that stay unchanged: counts, codes and fits between parts, which are valid only together. */
const KEPT = new Set([
  'version',
  'at',
  'diameterCode',
  'boltCount',
  'studCount',
  'mountBoltCount',
  'count',
  'spokes',
  'fitted',
  'boltCircle',
  'boltHole',
  'studDiameter',
  'pilotDiameter',
  'centreBore',
  'hatThickness',
  'spigotDiameter',
  'bore',
  'innerDiameter',
]);

/** A corner with every length of its parts changed by up to 6 %, its points moved, caliper and hub rotated. */
function jittered(source: unknown, random: () => number): unknown {
  const vary = (value: unknown, key: string, path: string): unknown => {
    if (Array.isArray(value)) return value.map((item) => vary(item, key, path));
    if (typeof value === 'object' && value !== null)
      return Object.fromEntries(
        Object.entries(value).map(([field, held]) => [field, vary(held, field, `${path}.${field}`)]),
      );
    if (typeof value !== 'number' || KEPT.has(key)) return value;
    if (path.includes('.parts.clockingDeg')) return between(random, -180, 180);
    if (key === 'boltDirection' || key === 'eyeDirection' || key.endsWith('Deg')) return value;
    if (path.includes('.suspension.hardpoints') || path.includes('.suspension.damper'))
      return value + between(random, -6, 6);
    return path.includes('.parts') ? value * between(random, 0.94, 1.06) : value;
  };
  return vary(source, '', '');
}

export interface WholeCorner {
  design: Design;
  /** The bodies of a pair are prepared on first access. */
  setup: Setup;
  /** Number of corners rejected before this one. */
  refused: number;
}

/** Base corners: each demo, the bench corner, and a new corner without any measured value. */
const bases = (): unknown[] => [...DEMOS.map(demoSource), minimalCorner(), newCorner(noAnswers('mm')).source];

const withLazyBodies = (built: Built): Setup => ({
  ...built,
  bodies: built.pairs.map((pair) => {
    const bodies = lazily(() => withBodies({ ...built, pairs: [pair] }).bodies[0]);
    return {
      get a() {
        return bodies().a;
      },
      get b() {
        return bodies().b;
      },
    };
  }),
});

/**
 * A random valid corner with all of its parts. If the checks or the builders reject a corner, the next one is tried.
 */
export async function randomWholeCorner(seed: number, settings: SweepSettings): Promise<WholeCorner> {
  const random = mulberry32(seed);
  const all = bases();
  for (let refused = 0; refused < 200; refused++) {
    const base = all[(seed + refused) % all.length];
    const parsed = parseDesign(JSON.stringify(jittered(base, random)));
    if (parsed.kind === 'bad') continue;
    try {
      return {
        design: parsed.design,
        setup: withLazyBodies(await buildCorner(parsed.design, settings)),
        refused,
      };
    } catch (error) {
      if (!(error instanceof DesignProblems)) throw error;
    }
  }
  throw new Error(`seed ${seed}: 200 corners in a row were refused`);
}
