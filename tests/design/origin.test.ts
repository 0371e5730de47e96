import { describe, expect, it } from 'vitest';
import { startingGroup, startingPart } from '../../src/app/state/startingParts.ts';
import { pointsOf } from '../../src/app/tools/points/pointsOf.ts';
import { pointInFile } from '../../src/design/origin.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { figuresIn } from '../../src/report/figures.ts';
import { inputSection } from '../../src/report/inputSection.ts';
import { type CornerInput, minimalCorner } from './fixtures.ts';
import { readDesign } from './readDesign.ts';

const HUB_MM = 370;

type Point = [number, number, number];

/** The fixture with a tube, a box, a plate and a zone, Z of every point less `lowered`. */
function lowered(loweredMm: number): CornerInput {
  const corner = minimalCorner();
  const down = ([x, y, z]: Point): Point => [x, y, z - loweredMm];
  const { hardpoints, damper } = corner.suspension;
  for (const [name, point] of Object.entries(hardpoints))
    Object.assign(hardpoints, { [name]: down(point as Point) });
  for (const part of corner.parts)
    if (part.kind === 'tube')
      Object.assign(part, { from: down(part.from as Point), to: down(part.to as Point) });
  if (damper === undefined) throw new Error('the fixture has a damper');
  Object.assign(damper, {
    chassisMount: down(damper.chassisMount as Point),
    armMount: down(damper.armMount as Point),
  });
  const outline = (
    [
      [0, 0],
      [80, 0],
      [80, 80],
    ] as const
  ).map(([x, z]) => down([x, 200, 500 + z]));
  corner.parts.push(
    { id: 'rail', kind: 'tube', from: down([-200, 200, 250]), to: down([200, 200, 250]), diameter: 40 },
    { id: 'box', kind: 'box', centre: down([0, 200, 400]), size: [50, 50, 50] },
    { id: 'plate', kind: 'plate', outline, thickness: 5 },
  );
  corner.pairs = [
    {
      between: ['rail', 'box'],
      zone: { shape: 'slab', centre: down([0, 200, 300]), axis: [0, 0, 1], thickness: 5, radius: 20 },
    },
  ];
  return corner;
}

describe('a file that measures Z from the hub', () => {
  const ground = readDesign(lowered(0));
  const hub = readDesign({ ...lowered(HUB_MM), originHeight: HUB_MM });

  it('gives the same corner as one measured from the ground, for every point', () => {
    const { originHeight, ...corner } = hub.corner;
    expect(originHeight).toBe(HUB_MM);
    expect(corner).toEqual(ground.corner);
    expect(hub.hash).toBe(ground.hash);
    expect(valueOfWheelCentre(lowered(HUB_MM))).toBe(0);
  });

  it('reads the height in any unit; without one, in that of the file', () => {
    for (const height of ['370 mm', '37 cm', '370'])
      expect(readDesign({ ...lowered(HUB_MM), unit: 'mm', originHeight: height }).hash).toBe(ground.hash);
    const inches = readDesign({ ...lowered(0), unit: 'in', originHeight: '14 9/16' }).corner;
    expect(inches.suspension.hardpoints.wheelCentre[2]).toBeCloseTo(HUB_MM + 14.5625 * 25.4, 9);
  });

  it('shows its origin in the report, as typed and in words', () => {
    const [text, table] = inputSection(hub, figuresIn('mm')).blocks;
    expect(text).toMatchObject({
      text: expect.stringContaining(
        'Typed Z values are from an origin 370.00 mm above the ground; values in use are from the ground.',
      ),
    });
    expect(JSON.stringify(table)).toContain('"originHeight","370","370.00 mm"');
  });

  it('shows its points in place, and stores new ones from its own origin', () => {
    const source = { ...lowered(HUB_MM), originHeight: '370 mm' };
    const places = pointsOf(source, hub.corner.suspension, 'mm').map(({ place }) => place);
    expect(places).toEqual(pointsOf(lowered(0), ground.corner.suspension, 'mm').map(({ place }) => place));
    expect(pointInFile(hub.corner, [1, 2, 370])).toEqual([1, 2, 0]);
    for (const of of [
      (corner: typeof hub.corner) => startingGroup('zone', corner, undefined),
      (corner: typeof hub.corner) => startingGroup('damper', corner, undefined),
      (corner: typeof hub.corner) => startingPart('tube', corner),
      (corner: typeof hub.corner) => startingPart('box', corner),
      (corner: typeof hub.corner) => startingPart('plate', corner),
    ])
      expect(raised(of(hub.corner))).toEqual(of(ground.corner));
  });
});

describe('a file that puts the hub on or below the ground', () => {
  it('is rejected with the height found and what to write', () => {
    for (const [z, height] of [
      [0, '0 mm'],
      [-25.4, '-25.4 mm'],
    ] as const) {
      const corner = lowered(HUB_MM);
      Object.assign(corner.suspension.hardpoints, { wheelCentre: [0, 800, z] });
      const result = parseDesign(JSON.stringify(corner));
      expect(result.kind === 'bad' && result.problems).toMatchObject([
        {
          path: 'suspension.hardpoints.wheelCentre[2]',
          message: expect.stringMatching(
            new RegExp(
              `^is ${height} above the ground, and must be more than 0: .* give its height above the ground as originHeight$`,
            ),
          ),
        },
      ]);
    }
  });

  it('is rejected if the height is no length', () => {
    const result = parseDesign(JSON.stringify({ ...lowered(0), originHeight: 'high' }));
    expect(result.kind === 'bad' && result.problems.map(({ path }) => path)).toEqual(['originHeight']);
  });
});

const valueOfWheelCentre = ({ suspension }: CornerInput) => suspension.hardpoints.wheelCentre[2];

/** A value of the file with every point in it raised to the ground's Z. */
function raised(value: unknown): unknown {
  if (!Array.isArray(value))
    return typeof value === 'object' && value !== null
      ? Object.fromEntries(
          Object.entries(value).map(([key, held]) => [key, key === 'size' ? held : raised(held)]),
        )
      : value;
  return value.length === 3 && value.every((n) => typeof n === 'number')
    ? [value[0], value[1], value[2] + HUB_MM]
    : value.map(raised);
}
