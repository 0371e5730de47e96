import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Corner } from '../../../src/design/schema.ts';
import { compose, type Rigid, rotationAbout, translation } from '../../../src/math/rigid.ts';
import { SolidMaker } from '../../../src/solids/catalogue.ts';
import type { FlatPlate } from '../../../src/solids/flatPlates/flatPlate.ts';
import { flatPlatesOf } from '../../../src/solids/flatPlates/flatPlatesOf.ts';
import { polygonAreaMm2, tessellated } from '../../../src/solids/flatPlates/loops.ts';
import { type SectionRegion, sectionOf } from '../../../src/solids/section.ts';
import { type Point2, pointToSide } from '../../../src/solids/simplePolygon.ts';
import type { Solid } from '../../../src/solids/solid.ts';
import { degToRad } from '../../../src/units/angle.ts';
import { minimalCorner } from '../../design/fixtures.ts';
import { readDesign } from '../../design/readDesign.ts';

const length = (mm: number) => `${mm} mm`;
const platesOf = (corner: Corner, bend?: { radiusMm: number; kFactor: number }) =>
  flatPlatesOf(corner, { bend, length });

const demo = (name: string): Corner =>
  readDesign(
    JSON.parse(readFileSync(join(import.meta.dirname, `../../../demo-data/${name}.corner.json`), 'utf8')),
  ).corner;

/** The bench corner; its caliper's bracket is inboard of the caliper's body, so that a section cuts the bracket alone. */
function bench(changes: Record<string, unknown> = {}, right = false): Corner {
  const source = minimalCorner();
  if (right) source.side = 'right';
  for (const part of source.parts) {
    if (part.kind === 'upright') Object.assign(part, changes);
    if (part.kind === 'caliper') part.mount.earFace = 90;
  }
  source.parts.push({
    id: 'gusset',
    kind: 'plate',
    carrier: 'chassis',
    thickness: 6,
    outline: [
      [0, 300, 200],
      [120, 300, 200],
      [120, 300, 290],
      [60, 300, 290],
    ],
  });
  return readDesign(source).corner;
}

const loopAreaMm2 = (plate: FlatPlate) =>
  polygonAreaMm2(tessellated(plate.outline)) -
  plate.openings.reduce((sum, { loop }) => sum + Math.abs(polygonAreaMm2(tessellated(loop))), 0);

const pointsOf = (flat: Float64Array): Point2[] =>
  Array.from({ length: flat.length / 2 }, (_, i) => [flat[2 * i], flat[2 * i + 1]]);

const edgeGap = (at: Point2, polygons: readonly (readonly Point2[])[]): number =>
  Math.min(
    ...polygons.flatMap((polygon) =>
      polygon.map((from, i) => pointToSide(at, from, polygon[(i + 1) % polygon.length])),
    ),
  );

const isIn = ([x, y]: Point2, polygons: readonly (readonly Point2[])[]): boolean => {
  let inside = false;
  for (const polygon of polygons)
    polygon.forEach(([x0, y0], i) => {
      const [x1, y1] = polygon[(i + 1) % polygon.length];
      if (y0 > y !== y1 > y && x < x0 + ((y - y0) * (x1 - x0)) / (y1 - y0)) inside = !inside;
    });
  return inside;
};

/** Points along a closed polygon, no further apart than 2 mm. */
const along = (polygon: readonly Point2[]): Point2[] =>
  polygon.flatMap(([x, y], i) => {
    const [x1, y1] = polygon[(i + 1) % polygon.length];
    const n = Math.max(1, Math.ceil(Math.hypot(x1 - x, y1 - y) / 2));
    return Array.from({ length: n }, (_, k): Point2 => [x + ((x1 - x) * k) / n, y + ((y1 - y) * k) / n]);
  });

const isBeyond = ([x, y]: Point2, { from, beyond }: FlatPlate['bends'][number]) =>
  (x - from[0]) * beyond[0] + (y - from[1]) * beyond[1];

/** The frame of the part beyond a sharp fold: the flat part's, turned about the bend line toward the side that is up. */
function foldedFrame(plate: FlatPlate, { from, beyond, angleDeg }: FlatPlate['bends'][number]): Rigid {
  // Along the bend line, so that a positive turn raises what is beyond it.
  const axis = [beyond[1], -beyond[0], 0] as const;
  return compose(plate.vehicleFromPlate, rotationAbout([from[0], from[1], 0], axis, degToRad(angleDeg)));
}

/**
 * Compares the outline with the section of the built solid in one plane: the solid's boundary never runs inside the
 * template, and the template's edge is the solid's boundary, or is inside the solid where another piece is joined on.
 */
function expectSection(
  plate: FlatPlate,
  solid: Solid,
  frame: Rigid,
  isHere: (at: Point2) => boolean,
): { on: number; all: number } {
  const regions: SectionRegion[] = sectionOf(solid.mesh, frame);
  const section = regions.flatMap(({ outer, holes }) => [outer, ...holes].map(pointsOf));
  const template = [plate.outline, ...plate.openings.map(({ loop }) => loop)].map((loop) =>
    tessellated(loop),
  );
  const tolerance = 0.01 + solid.chordErrorMm;
  let [on, all] = [0, 0];
  for (const at of template.flatMap(along).filter(isHere)) {
    const gap = edgeGap(at, section);
    all += 1;
    if (gap <= tolerance) on += 1;
    else expect(isIn(at, section), `${plate.id}: ${at} is not in the solid; gap ${gap}`).toBe(true);
  }
  for (const at of section.flatMap(along).filter(isHere))
    if (isIn(at, template))
      expect(edgeGap(at, template), `${plate.id}: ${at}`).toBeLessThanOrEqual(tolerance);
  return { on, all };
}

const solidOf = (solids: readonly Solid[], id: string): Solid =>
  solids.find((solid) => id === solid.id || id.startsWith(`${solid.id}.`)) as Solid;

describe('flat plates and the solids that they are made from', () => {
  it.each([
    ['bench', bench()],
    ['bench with boxed legs', bench({ boxDepth: 40, boxWall: 4 })],
    ['bench with a kick-out inside the pad', bench({ kickOutRadius: 60, boxDepth: 30 })],
    ['gravelbeck', demo('gravelbeck')],
    ['larkrise', demo('larkrise')],
    ['stoneyholt', demo('stoneyholt')],
  ])('agree in the middle plane of each plate, folded up: %s', async (_, corner) => {
    const plates = await platesOf(corner);
    const isWanted = ({ id }: { id: string }) =>
      plates.some((plate) => plate.id === id || plate.id.startsWith(`${id}.`));
    // A plane that meets a round surface at a small angle shows its chord error enlarged.
    const solids = await new SolidMaker().make(corner, 0.001, { isWanted });
    expect(plates.length).toBeGreaterThan(1);
    for (const plate of plates) {
      const solid = solidOf(solids, plate.id);
      const { bends, thicknessMm } = plate;
      // At a sharp fold, the middle planes of both parts end within half a thickness of the line.
      const clear = thicknessMm;
      const flat = expectSection(plate, solid, plate.vehicleFromPlate, (at) =>
        bends.every((bend) => isBeyond(at, bend) < -clear),
      );
      expect(flat.on / flat.all, plate.id).toBeGreaterThan(0.4);
      for (const bend of bends) {
        const folded = expectSection(
          plate,
          solid,
          foldedFrame(plate, bend),
          (at) => isBeyond(at, bend) > clear,
        );
        expect(folded.on / folded.all, plate.id).toBeGreaterThan(0.4);
      }
    }
  });

  it('have the area computed by hand: a trapezium, and a ring for a pad inside whose edge the legs leave it', async () => {
    const plates = await platesOf(bench({ kickOutRadius: 60 }));
    const gusset = plates.find(({ id }) => id === 'gusset') as FlatPlate;
    expect(loopAreaMm2(gusset)).toBeCloseTo(((120 + 60) / 2) * 90, 6);
    const pad = plates.find(({ id }) => id === 'upright.pad') as FlatPlate;
    expect(pad.outline).toEqual({ kind: 'circle', centre: [0, 0], radiusMm: 72.5 });
    expect(pad.openings.map(({ loop }) => loop)).toEqual([{ kind: 'circle', centre: [0, 0], radiusMm: 40 }]);
    // Hull of two equal discs and a foot: by Green's theorem from the tangent points, with a = the tangent's angle.
    const bracket = plates.find(({ id }) => id === 'caliper.bracket') as FlatPlate;
    const [s, r, h, foot, inner] = [65, 14, Math.sqrt(125 ** 2 - 65 ** 2), 80, 74];
    const [dx, dy] = [s - foot, h - inner];
    const reach = Math.hypot(dx, dy);
    // Angle of the tangent point of the right disc, seen from its centre.
    const tangent = Math.atan2(-dy, -dx) + Math.acos(r / reach);
    const arc = Math.PI / 2 - tangent;
    const edge: Point2[] = [[foot, inner]];
    for (let k = 0; k <= 20_000; k++) {
      const angle = tangent + (arc * k) / 20_000;
      edge.push([s + r * Math.cos(angle), h + r * Math.sin(angle)]);
    }
    const half = edge.reduce(
      (sum, [x, y], i) => sum + (i === 0 ? 0 : ((edge[i - 1][0] + x) / 2) * (y - edge[i - 1][1])),
      0,
    );
    expect(loopAreaMm2(bracket)).toBeCloseTo(2 * half, 1);
  });

  it('put the holes of the bearing housing on its bolt circle, and name what is not modelled', async () => {
    const [pad] = (await platesOf(demo('stoneyholt'))).filter(({ id }) => id === 'upright.pad');
    expect(pad.holes.map(({ at }) => at.map((mm) => Math.round(mm * 1e6) / 1e6 + 0))).toEqual([
      [0, 56],
      [56, 0],
      [0, -56],
      [-56, 0],
    ]);
    // ISO 273, medium: 13.5 mm for M12. The set has its heads inboard, on the upright.
    expect(pad.holes.map(({ cut }) => cut.diameterMm)).toEqual([13.5, 13.5, 13.5, 13.5]);
    const [unknown] = (await platesOf(bench())).filter(({ id }) => id === 'upright.pad');
    expect(unknown.holes.every(({ cut }) => cut.diameterMm === undefined)).toBe(true);
    expect(unknown.notes.join(' ')).toMatch(/no bolt holes.*bend radius of the upper leg is unknown/);
  });

  it('mirror a right corner', async () => {
    const [left, right] = await Promise.all([platesOf(bench()), platesOf(bench({}, true))]);
    left.forEach((plate, i) => {
      expect(polygonAreaMm2(tessellated(right[i].outline))).toBeCloseTo(
        -polygonAreaMm2(tessellated(plate.outline)),
        6,
      );
      expect(right[i].holes.map(({ at }) => at[0])).toEqual(plate.holes.map(({ at }) => -at[0]));
    });
  });

  it('shorten a bent plate by twice the setback less the allowance', async () => {
    const rule = { radiusMm: 10, kFactor: 0.42 };
    const height = (plate: FlatPlate) => {
      const ys = tessellated(plate.outline).map(([, y]) => y);
      return Math.max(...ys) - Math.min(...ys);
    };
    const corner = bench({ boxDepth: 40, boxWall: 4 });
    const [sharp, bent] = await Promise.all([platesOf(corner), platesOf(corner, rule)]);
    const walls = sharp.filter(({ id, bends }) => /Leg/.test(id) && bends.length === 1);
    expect(walls.length).toBe(6);
    for (const wall of walls) {
      const angle = degToRad(Math.abs(wall.bends[0].angleDeg));
      const less = 2 * (10 + 4 / 2) * Math.tan(angle / 2) - angle * (10 + 0.42 * 4);
      const same = bent.find(({ id }) => id === wall.id) as FlatPlate;
      expect(height(wall) - height(same), wall.id).toBeCloseTo(less, 3);
    }
  });

  it('are in the frame of the plate: the gusset turned back is its own outline', async () => {
    const gusset = (await platesOf(bench())).find(({ id }) => id === 'gusset') as FlatPlate;
    const face = compose(gusset.vehicleFromPlate, translation([0, 0, -3]));
    const ys = tessellated(gusset.outline).map(([x, y]) => face[4] * x + face[5] * y + face[7]);
    for (const y of ys) expect(y).toBeCloseTo(300, 9);
  });
});
