import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { sketchOf } from '../../../../src/app/sheets/parts/sketch/sketchOf.ts';
import { startingPart } from '../../../../src/app/state/startingParts.ts';
import { valuesIn } from '../../../../src/design/edit.ts';
import { fieldsAt } from '../../../../src/design/fields.ts';
import { valueAt } from '../../../../src/design/path.ts';
import { partKinds } from '../../../../src/parts/kindOf.ts';
import { readDesign } from '../../../design/readDesign.ts';
import { byBackspacing, withAll } from './wholeCorner.ts';

/** Fields with a measure that are not a dimension of the shape, with the reason. */
const NO_DIMENSION: readonly (readonly [field: RegExp, why: string])[] = [
  [/^allowance$/, 'subtracted from margins; does not change the size of the part'],
  [/^(from|to|centre|outline\.\d+)\.[012]$/, 'a coordinate from the origin of the vehicle, not on the part'],
];
/** Numbers without a unit that are dimensions: a rim diameter in inches, and a fraction along an arm. */
const MEASURES = /^(diameterCode|brace\.at)$/;

const demo = (name: string): unknown =>
  JSON.parse(readFileSync(new URL(`../../../../demo-data/${name}.corner.json`, import.meta.url), 'utf8'));

/** Used fields with a measure that the part's sketch does not show, as `part field`. */
function left(source: unknown): { unlit: string[]; seen: string[] } {
  const design = readDesign(source);
  const { corner } = design;
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
        // No such dimension: a disc without spokes, an upright without boxing.
        if (entry.kind === 'wheel' && entry.spokes === 0 && field === 'spokeWidth') return false;
        // A rectangle of holes replaces the circle.
        if (entry.kind === 'hub' && entry.mountRectangle && field === 'mountBoltCircle') return false;
        if (entry.kind === 'upright' && entry.boxDepth === 0 && field === 'boxWall') return false;
        return !shown.has(field) && !NO_DIMENSION.some(([pattern]) => pattern.test(field));
      })
      .map(({ field }) => `${entry.id} ${field}`);
  });
  return { unlit, seen };
}

it.each([
  ['the first demo', demo('gravelbeck')],
  ['the first demo in mm', demo('gravelbeck-mm')],
  ['the second demo', demo('larkrise')],
  ['one part of each kind with every option', withAll()],
  ['the same with backspacing', byBackspacing()],
])('the sketches of %s show every dimension', (_, source) => {
  const { unlit, seen } = left(source);
  expect(seen.length).toBeGreaterThan(100);
  expect(unlit).toEqual([]);
});

it('the sketch of a new part of each kind shows all its starting dimensions', () => {
  const { corner } = (() => {
    return readDesign(withAll());
  })();
  for (const kind of partKinds()) {
    const at = corner.parts.findIndex((entry) => entry.kind === kind);
    expect(at, kind).toBeGreaterThanOrEqual(0);
    const source = withAll();
    const { id } = corner.parts[at];
    // The same role as the part that it replaces.
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

it('the corner with every option has every group and list of every part', () => {
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
    'bolts counterboreDepth',
    'bolts driveLength',
    'bolts handleDeg',
  ])
    expect(seen).toContain(field);
});
