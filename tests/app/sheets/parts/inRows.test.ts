import { expect, it } from 'vitest';
import { inRows, type LooseView } from '../../../../src/app/sheets/parts/sketch/inRows.ts';
import { across, rectangle, type Sketch } from '../../../../src/app/sheets/parts/sketch/sketch.ts';
import { translation } from '../../../../src/math/rigid.ts';
import { between, mulberry32 } from '../../../oracles/random.ts';

const SEED = 5521;
const GAP = 3;

const view = (width: number, height: number, name = ''): LooseView => ({
  vehicleFromView: translation([width, height, 0]),
  outlines: [rectangle(-width / 3, (2 * width) / 3, -height / 4, (3 * height) / 4)],
  axes: [],
  dimensions: [across(name, 0, width / 2, 0)],
});

/** Least and greatest x and y of each outline; every view has one. */
const boxesOf = ({ outlines }: Sketch) =>
  outlines.map((outline) => {
    const [xs, ys] = [outline.map(([x]) => x), outline.map(([, y]) => y)];
    return { x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys) };
  });
/** Number of rows: a view fully below the previous one starts a row. */
const rowsOf = (sketch: Sketch) =>
  1 + boxesOf(sketch).filter(({ y1 }, i, all) => i > 0 && y1 < all[i - 1].y0).length;

it('places views apart in reading order, each with its dimensions and its frame in the vehicle', () => {
  const random = mulberry32(SEED);
  for (let trial = 0; trial < 60; trial++) {
    const views = Array.from({ length: 5 }, (_, i) =>
      view(between(random, 1, 100), between(random, 1, 100), String(i)),
    );
    const sketch = inRows('', views, GAP);
    const boxes = boxesOf(sketch);
    boxes.forEach((one, i) => {
      for (const other of boxes.slice(i + 1)) {
        const [right, below] = [other.x0 - one.x1, one.y0 - other.y1];
        expect(Math.max(right, below), `seed ${SEED}, trial ${trial}`).toBeGreaterThan(GAP - 1e-9);
      }
      const { from, to, view: index } = sketch.dimensions[i];
      expect(index).toBe(i);
      expect(from).toEqual(sketch.views[i].at);
      expect(to[0] - from[0]).toBeCloseTo(views[i].dimensions[0].to[0], 9);
      expect(sketch.views[i].vehicleFromView).toBe(views[i].vehicleFromView);
    });
  }
});

it('places wide views below each other and high views beside each other', () => {
  const five = (width: number, height: number) => Array.from({ length: 5 }, () => view(width, height));
  expect(rowsOf(inRows('', five(400, 10), GAP))).toBe(5);
  expect(rowsOf(inRows('', five(10, 400), GAP))).toBe(1);
  expect(rowsOf(inRows('', five(60, 60), GAP))).toBe(2);
});
