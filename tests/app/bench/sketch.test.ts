import { describe, expect, it } from 'vitest';
import { boundsOf } from '../../../src/app/bench/sketch/sketch.ts';
import { sketchOf } from '../../../src/app/bench/sketch/sketchOf.ts';
import { parseDesign } from '../../../src/design/parse.ts';
import { valueAt } from '../../../src/design/path.ts';
import type { Corner } from '../../../src/design/schema.ts';
import { type CornerInput, entryOf, minimalCorner } from '../../design/fixtures.ts';

const read = (source: CornerInput): Corner => {
  const parsed = parseDesign(JSON.stringify(source));
  if (parsed.kind === 'bad') throw new Error(JSON.stringify(parsed.problems));
  return parsed.design.corner;
};
const withSpacer = (): CornerInput => {
  const source = minimalCorner();
  source.parts.push({
    id: 'spacer',
    kind: 'spacer',
    place: 'wheel',
    thickness: '1/4 in',
    outerDiameter: 150,
    innerDiameter: 70,
  });
  return source;
};
const byBackspacing = (): CornerInput => {
  const source = withSpacer();
  const wheel = entryOf(source, 'wheel');
  wheel.offset = undefined;
  wheel.backspacing = '5 1/2 in ±1/32';
  wheel.dropPlace = '-3/4 in';
  return source;
};

describe.each([
  ['by its offset', withSpacer()],
  ['by its backspacing', byBackspacing()],
])('sketches of a corner whose wheel is placed %s', (_, source) => {
  const corner = read(source);
  it.each(['wheel', 'rotor', 'spacer', 'caliper'] as const)(
    '%s: each dimension is drawn as long as it is',
    (kind) => {
      const part = corner.parts.findIndex((one) => one.kind === kind);
      const sketch = sketchOf(corner, part);
      expect(sketch?.dimensions.length).toBeGreaterThan(2);
      const fields = sketch?.dimensions.map(({ field }) => field) ?? [];
      expect(new Set(fields).size).toBe(fields.length);
      for (const { field, from, to } of sketch?.dimensions ?? []) {
        const value = valueAt(corner, ['parts', part, ...field.split('.')]);
        if (typeof value !== 'number') throw new Error(`${field} is no field of a ${kind}`);
        const drawn = Math.hypot(to[0] - from[0], to[1] - from[1]);
        // A rim's diameter code is its diameter in inches.
        expect(drawn, field).toBeCloseTo(Math.abs(field === 'diameterCode' ? value * 25.4 : value), 9);
      }
    },
  );
});

it('a wheel placed by its backspacing has its inboard edge there', () => {
  const corner = read(byBackspacing());
  const part = corner.parts.findIndex(({ kind }) => kind === 'wheel');
  const sketch = sketchOf(corner, part);
  const depths = sketch?.outlines.flat().map(([, y]) => y) ?? [];
  // 5 1/2 in.
  expect(Math.min(...depths)).toBeCloseTo(-139.7, 9);
  expect(boundsOf(sketch ?? { title: '', outlines: [], axes: [], dimensions: [] })[2]).toBeLessThan(-139.7);
});

it('a tie rod is not sketched', () => {
  const corner = read(minimalCorner());
  expect(
    sketchOf(
      corner,
      corner.parts.findIndex(({ kind }) => kind === 'tieRod'),
    ),
  ).toBeUndefined();
});
