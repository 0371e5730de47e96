import { describe, expect, it } from 'vitest';
import { pdfBytes } from '../../../src/cli/pdf.ts';
import { figuresIn } from '../../../src/report/figures.ts';
import type { Paper } from '../../../src/report/pdf/paper.ts';
import { drawingOf } from '../../../src/report/templates/drawing.ts';
import { templateDefinition } from '../../../src/report/templates/pdf.ts';
import { tilingOf } from '../../../src/report/templates/tiles.ts';
import type { FlatPlate } from '../../../src/solids/flatPlates/flatPlate.ts';
import { polygonAreaMm2 } from '../../../src/solids/flatPlates/loops.ts';
import { type ReadPage, readPdf } from './readPdf.ts';
import { STADIUM_MM2, stadium } from './stadium.ts';

const DATE = new Date('2026-03-01T12:00:00Z');
const MM = 25.4 / 72;

const drawn = (plate: FlatPlate) =>
  drawingOf(plate, { process: undefined, kerfMm: undefined }, figuresIn('mm'));
const pdfOf = (plate: FlatPlate, paper: Paper = 'A4') =>
  pdfBytes(templateDefinition(drawn(plate), paper, DATE));

/** A plate that takes several pages: 350 × 420, with round ends of 60. */
const LARGE = stadium({
  outline: {
    kind: 'path',
    corners: [
      { at: [0, 0], bulge: 0 },
      { at: [350, 0], bulge: 0 },
      { at: [350, 420], bulge: 0 },
      { at: [0, 420], bulge: 0 },
    ],
  },
  openings: [],
  bends: [],
  marks: [],
});

const mm = (points: ReadPage['strokes'][number]['points']) =>
  points.map(([x, y]): [number, number] => [x * MM, y * MM]);
const lengthOf = ([[x0, y0], [x1, y1]]: readonly (readonly [number, number])[]) =>
  Math.hypot(x1 - x0, y1 - y0);
const isBar = (length: number) => (one: number[][]) =>
  one.length === 2 && Math.abs(lengthOf(one as [number, number][]) - length) < 0.5;

describe('PDF of a template', () => {
  it.each([
    // ISO 216; ANSI/ASME Y14.1.
    ['A4', 210, 297],
    ['Letter', 215.9, 279.4],
  ] as const)('has pages of exactly %s', async (paper, width, height) => {
    for (const page of await readPdf(await pdfOf(stadium(), paper))) {
      expect(page.width * MM).toBeCloseTo(width, 4);
      expect(page.height * MM).toBeCloseTo(height, 4);
    }
  });

  it('has check bars of 100 mm and 4 in, across and upright, and the sentence to measure them', async () => {
    const [first] = await readPdf(await pdfOf(stadium()));
    const lines = first.strokes.map(({ points }) => mm(points));
    for (const length of [100, 101.6]) {
      const bars = lines.filter(isBar(length));
      const exact = bars.filter((bar) => Math.abs(lengthOf(bar) - length) < 1e-4);
      const across = exact.filter(([[, y0], [, y1]]) => Math.abs(y1 - y0) < 1e-4);
      const upright = exact.filter(([[x0], [x1]]) => Math.abs(x1 - x0) < 1e-4);
      expect([across.length, upright.length], `${length}`).toEqual([1, 1]);
    }
    expect(first.texts.join(' ')).toMatch(/Print at 100 %.*measure the check bars in both directions/);
  });

  it('draws the plate at true scale: its area and its holes, computed by hand', async () => {
    const pages = await readPdf(await pdfOf(stadium()));
    expect(pages).toHaveLength(2);
    const loops = pages[1].strokes.map(({ points }) => mm(points)).filter((points) => points.length > 20);
    const areas = loops.map((loop) => Math.abs(polygonAreaMm2(loop.slice(0, -1))));
    expect(Math.max(...areas)).toBeCloseTo(STADIUM_MM2, 1);
    const middles = loops.map((loop) => {
      const xs = loop.map(([x]) => x);
      const ys = loop.map(([, y]) => y);
      const size = Math.max(...xs) - Math.min(...xs);
      return { x: (Math.max(...xs) + Math.min(...xs)) / 2, y: (Math.max(...ys) + Math.min(...ys)) / 2, size };
    });
    const hole = (size: number) => middles.find((one) => Math.abs(one.size - size) < 0.01);
    const [left, middle, right] = [hole(10), hole(6), hole(8)];
    expect(left && middle && middle.x - left.x).toBeCloseTo(20, 3);
    expect(left && right && right.x - left.x).toBeCloseTo(40, 3);
    expect(left && right && right.y - left.y).toBeCloseTo(0, 3);
  });

  it.each(['A4', 'Letter'] as const)(
    'tiles a large plate on %s: neighbours overlap by exactly 10 mm and show the same match marks',
    async (paper) => {
      const pages = (await readPdf(await pdfOf(LARGE, paper))).slice(1);
      const tiling = tilingOf(drawn(LARGE).shapeBox, paper);
      expect(pages).toHaveLength(tiling.rows * tiling.columns);
      expect(tiling.columns).toBeGreaterThan(1);
      expect(tiling.rows).toBeGreaterThan(1);
      // The whole outline is on each page, outside its frame too, where it is not shown: it gives the page's shift.
      const corners = pages.map(({ strokes }) => {
        const outline = strokes
          .map(({ points }) => mm(points))
          .find((points) => {
            const area = Math.abs(polygonAreaMm2(points.slice(0, -1)));
            return Math.abs(area - 350 * 420) < 1;
          });
        if (outline === undefined) throw new Error('no outline');
        return [Math.min(...outline.map(([x]) => x)), Math.max(...outline.map(([, y]) => y))];
      });
      const [frameWidth, frameHeight] = tiling.frameMm;
      pages.forEach((_, i) => {
        const [row, column] = [Math.floor(i / tiling.columns), i % tiling.columns];
        if (column > 0) expect(frameWidth - (corners[i - 1][0] - corners[i][0])).toBeCloseTo(10, 3);
        if (row > 0)
          expect(frameHeight - (corners[i][1] - corners[i - tiling.columns][1])).toBeCloseTo(10, 3);
      });
      const marksOf = ({ texts }: ReadPage) => texts.filter((text) => /^M\d+$/.test(text));
      for (const [i, page] of pages.entries()) {
        if (i % tiling.columns === 0) continue;
        const shared = marksOf(pages[i - 1]).filter((mark) => marksOf(page).includes(mark));
        expect(shared.length).toBeGreaterThanOrEqual(2);
      }
      expect(pages[0].texts.join(' ')).toContain(`row 1 of ${tiling.rows}, column 1 of ${tiling.columns}`);
    },
  );

  it('is the same bytes for the same plate and date', async () => {
    const [one, two] = [await pdfOf(stadium()), await pdfOf(stadium())];
    expect(Buffer.from(one).equals(Buffer.from(two))).toBe(true);
  });

  it('holds a hostile name as text alone', async () => {
    const name = ') Tj ET Q\n/JS (app.alert(1)) </svg><script>x</script> & {{x}} \\ %';
    const data = await pdfOf(stadium({ name, notes: [name] }));
    const pages = await readPdf(data);
    expect(pages[0].texts.join('')).toContain(') Tj ET Q\\n/JS (app.alert(1)) </svg><script>x</script>');
    const strokes = async (bytes: Uint8Array) => (await readPdf(bytes))[1].strokes.length;
    expect(await strokes(data)).toBe(await strokes(await pdfOf(stadium())));
  });
});
