import { expect, it } from 'vitest';
import { figuresIn } from '../../src/report/figures.ts';
import { fitSection } from '../../src/report/fitSection.ts';
import { type CornerInput, minimalCorner } from '../design/fixtures.ts';
import { readDesign } from '../design/readDesign.ts';

const sectionOf = (corner: CornerInput) =>
  fitSection({ design: readDesign(corner), solids: [] }, figuresIn('mm')).blocks;

it('lists the faces on the wheel axis by their depth', () => {
  const corner = minimalCorner();
  corner.parts.push({
    id: 'ring',
    label: 'Spacer ring',
    kind: 'spacer',
    place: 'wheel',
    thickness: 6,
    outerDiameter: 150,
    innerDiameter: 70,
  });
  const table = sectionOf(corner).find((block) => block.kind === 'table');
  // By hand: a hat of 7 and the ring of 6, a wheel offset of 25, a rotor 47.625 high and 26 thick.
  const depths = Object.fromEntries(table?.rows.map(({ cells }) => [cells[0], cells[1]]) ?? []);
  const signed = (mm: number) => figuresIn('mm').signedPlace(mm);
  expect(depths).toEqual({
    "Wheel's mounting face": signed(13),
    'Spacer ring: outboard face': signed(13),
    'Spacer ring: inboard face': signed(7),
    'hub: wheel-mounting face': signed(0),
    "wheel: rim's centre plane": signed(-12),
    'rotor: outboard friction face': signed(7 - 47.625 + 26),
    'rotor: inboard friction face': signed(7 - 47.625),
    "hub: bearing housing's mounting face": signed(-75),
    'upright: hub pad': signed(-75),
  });
});

it('says where the caliper and its bleed screw are, and the clocking of the hub', () => {
  const list = sectionOf(minimalCorner()).find((block) => block.kind === 'list');
  // The middle of the body is (108 + 186) / 2 = 147 mm from the axis; at clocking 90 degrees it is that far behind it.
  expect(list?.items[0]).toMatch(
    /^caliper: clocking \+90\.0°, its middle 147\.\d mm behind the axle; bleed screw /,
  );
  expect(list?.items[1]).toBe('hub: clocking 0.0°.');
});

it('has no clockings if the corner has neither caliper nor hub', () => {
  const corner = minimalCorner();
  corner.parts = corner.parts.filter(
    ({ kind }) => !['caliper', 'hub', 'rotor', 'wheel', 'tyre', 'upright'].includes(kind),
  );
  corner.pairs = [];
  expect(sectionOf(corner).some((block) => block.kind === 'list')).toBe(false);
});
