import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { sketchOf } from '../../../src/app/bench/sketch/sketchOf.ts';
import { startingPart } from '../../../src/app/bench/startingParts.ts';
import { valuesIn } from '../../../src/design/edit.ts';
import { fieldsAt, partKinds } from '../../../src/design/fields.ts';
import { parseDesign } from '../../../src/design/parse.ts';
import { valueAt } from '../../../src/design/path.ts';
import { byBackspacing, withAll } from './wholeCorner.ts';

/** Fields that measure, and yet are no dimension of a shape. */
const NO_DIMENSION: readonly (readonly [field: RegExp, why: string])[] = [
  [/^allowance$/, 'taken off margins; the part is as large with it as without'],
  [
    /^(from|to|centre|outline\.\d+)\.[012]$/,
    'a coordinate of a place: from the origin of the vehicle, not on the part',
  ],
];
/** Numbers without a unit that are a dimension all the same: of a rim in inches, and a part of the way along an arm. */
const MEASURES = /^(diameterCode|brace\.at)$/;

const demo = (name: string): unknown =>
  JSON.parse(readFileSync(new URL(`../../../demo-data/${name}.corner.json`, import.meta.url), 'utf8'));

/** Fields in use that measure and that no dimension of the part's sketch shows: `part field`. */
function left(source: unknown): { unlit: string[]; seen: string[] } {
  const parsed = parseDesign(JSON.stringify(source));
  if (parsed.kind === 'bad') throw new Error(JSON.stringify(parsed.problems));
  const { corner } = parsed.design;
  const seen: string[] = [];
  const unlit = corner.parts.flatMap((entry, part) => {
    const sketch = sketchOf(corner, part);
    expect(sketch, entry.id).toBeDefined();
    const shown = new Set(sketch?.dimensions.map(({ field }) => field));
    return valuesIn(fieldsAt(source, ['parts', part]))
      .map(({ kind, path }) => ({ kind, path, field: path.slice(2).join('.') }))
      .filter(({ kind, field }) => kind === 'length' || kind === 'angle' || MEASURES.test(field))
      .filter(({ path }) => valueAt(corner, path) !== undefined)
      .filter(({ field }) => {
        seen.push(`${entry.kind} ${field}`);
        // Of nothing: without spokes the disc is whole, without boxing there is no wall of it.
        if (entry.kind === 'wheel' && entry.spokes === 0 && field === 'spokeWidth') return false;
        // The rectangle of holes takes the place of the circle.
        if (entry.kind === 'hub' && entry.mountRectangle && field === 'mountBoltCircle') return false;
        if (entry.kind === 'upright' && entry.boxDepth === 0 && field === 'boxWall') return false;
        return !shown.has(field) && !NO_DIMENSION.some(([pattern]) => pattern.test(field));
      })
      .map(({ field }) => `${entry.id} ${field}`);
  });
  return { unlit, seen };
}

it.each([
  ['the first demo', demo('saltpan')],
  ['the first demo in mm', demo('saltpan-mm')],
  ['the second demo', demo('larkrise')],
  ['one of each kind with all that it may have', withAll()],
  ['the same by its backspacing', byBackspacing()],
])('every dimension of %s stands in the sketch of its part', (_, source) => {
  const { unlit, seen } = left(source);
  expect(seen.length).toBeGreaterThan(100);
  expect(unlit).toEqual([]);
});

it('one of each kind, as it starts, has all that starts with it in its sketch', () => {
  const { corner } = (() => {
    const parsed = parseDesign(JSON.stringify(withAll()));
    if (parsed.kind === 'bad') throw new Error(JSON.stringify(parsed.problems));
    return parsed.design;
  })();
  for (const kind of partKinds()) {
    const at = corner.parts.findIndex((entry) => entry.kind === kind);
    expect(at, kind).toBeGreaterThanOrEqual(0);
    const source = withAll();
    const { id } = corner.parts[at];
    // The same role as the part that it takes the place of.
    const { arm, at: place } = corner.parts[at] as { arm?: string; at?: string };
    source.parts[at] = {
      ...startingPart(kind, corner),
      id,
      ...(arm === undefined ? {} : { arm }),
      ...(place === undefined ? {} : { at: place }),
    } as (typeof source.parts)[number];
    expect(left(source).unlit, kind).toEqual([]);
  }
});

it('every group and list that a part may have is in the corner that has them all', () => {
  const { seen } = left(withAll());
  const other = left(byBackspacing()).seen;
  for (const field of ['hub mountRectangle.height', 'rotor hatBolts.clockingDeg'])
    expect(other).toContain(field);
  for (const field of [
    'wheel spokeWidth',
    'wheel innerBarrel.1.depth',
    'tyre treadWidth',
    'rotor innerDiameter',
    'caliper bracket.inset',
    'caliper bleedScrew.along',
    'upright boxWall',
    'controlArm brace.at',
    'controlArm gusset.length',
    'joint shankLength',
    'joint ballWidth',
    'joint spacers.length',
    'joint boltHead.height',
    'joint allowedTiltDeg',
    'damper closedLength',
    'damper openLength',
    'damper spring.seat',
    'bolts length',
    'bolts washerThickness',
    'bolts driveLength',
    'bolts handleDeg',
  ])
    expect(seen).toContain(field);
});
