import type { Corner, Entry, PartKind } from '../../src/design/schema.ts';
import { add } from '../../src/math/vec.ts';
import type { BuildContext } from '../../src/solids/build.ts';
import { loadModeller } from '../../src/solids/modeller.ts';
import { entries } from '../../src/solids/wheelFrame.ts';
import { minimalCorner } from '../design/fixtures.ts';
import { readDesign } from '../design/readDesign.ts';
import { between } from '../oracles/random.ts';

/** The parsed bench corner; each call returns a fresh copy that a test may change. */
export function benchCorner(): Corner {
  const design = readDesign(minimalCorner());
  return structuredClone(design.corner);
}

/** The bench corner with each hardpoint moved by up to 8 mm along each axis, damper mounts too. */
export function jitteredCorner(random: () => number): Corner {
  const corner = benchCorner();
  const moved = (p: readonly [number, number, number]): [number, number, number] => [
    ...add(p, [between(random, -8, 8), between(random, -8, 8), between(random, -8, 8)]),
  ];
  const { hardpoints, damper } = corner.suspension;
  for (const name of Object.keys(hardpoints) as (keyof typeof hardpoints)[]) {
    hardpoints[name] = moved(hardpoints[name]);
  }
  if (damper !== undefined) {
    damper.chassisMount = moved(damper.chassisMount);
    damper.armMount = moved(damper.armMount);
  }
  return corner;
}

/** The first entry of a kind; throws if there is none. */
export function entryOf<K extends PartKind>(corner: Corner, kind: K): Entry<K> {
  const entry = entries(corner, kind)[0];
  if (entry === undefined) throw new Error(`the corner has no ${kind}`);
  return entry;
}

export const contextOf = async (corner: Corner, chordToleranceMm = 0.05): Promise<BuildContext> => ({
  corner,
  modeller: await loadModeller(),
  chordToleranceMm,
});

/** A set of M12 bolts: schema defaults, then the given fields. */
export const boltsOf = (given: Partial<Entry<'bolts'>> & Pick<Entry<'bolts'>, 'joins'>): Entry<'bolts'> => ({
  id: given.joins,
  kind: 'bolts',
  allowance: 0,
  size: 'M12',
  head: 'hex',
  headSide: 'inboard',
  nut: false,
  washers: true,
  tool: 'socket',
  toolOn: 'both',
  ...given,
});

/** A point with each coordinate between -reach and reach. */
export const randomPoint = (random: () => number, reach: number): [number, number, number] => [
  between(random, -reach, reach),
  between(random, -reach, reach),
  between(random, -reach, reach),
];
