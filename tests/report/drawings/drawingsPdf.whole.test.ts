import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { expect, it } from 'vitest';
import { pdfBytes } from '../../../src/cli/pdf.ts';
import { drawingsDefinition } from '../../../src/report/drawings/drawingsPdf.ts';
import type { Paper } from '../../../src/report/pdf/paper.ts';
import { HEAD, readSheet, sheetsOf } from './readSheet.ts';

const MM_PER_POINT = 25.4 / 72;
const MM_PER_IN = 25.4;
const fileAt = (path: string): { name: string; unit?: 'mm' | 'in' } =>
  JSON.parse(readFileSync(resolve(import.meta.dirname, path), 'utf8'));

type Point = readonly [number, number];

interface Text {
  words: string;
  /** Corners of its line, mm from the lower left corner of the page, with the widths of the font in the PDF. */
  corners: Point[];
}

/** Size and texts of each page, read by pdf.js. */
async function pagesOf(pdf: Uint8Array): Promise<{ size: Point; texts: Text[] }[]> {
  const document = await getDocument({ data: new Uint8Array(pdf), verbosity: 0 }).promise;
  const numbers = Array.from({ length: document.numPages }, (_, i) => i + 1);
  return Promise.all(
    numbers.map(async (number) => {
      const page = await document.getPage(number);
      const [left, bottom, right, top] = page.view;
      const { items } = await page.getTextContent();
      const texts = items.flatMap((item): Text[] => {
        if (!('str' in item) || item.str.trim() === '') return [];
        const [a, b, , , x, y] = item.transform as number[];
        const size = Math.hypot(a, b);
        const along: Point = [a / size, b / size];
        const at = (u: number, v: number): Point => [
          (x + u * along[0] - v * along[1]) * MM_PER_POINT,
          (y + u * along[1] + v * along[0]) * MM_PER_POINT,
        ];
        // From just below the base line to the height of capitals.
        const corners = [at(0, 0), at(item.width, 0), at(item.width, 0.71 * size), at(0, 0.71 * size)];
        return [{ words: item.str, corners }];
      });
      return { size: [(right - left) * MM_PER_POINT, (top - bottom) * MM_PER_POINT], texts };
    }),
  );
}

/** Whether two rectangles meet: no line along a side of one is between them. */
function meet(one: readonly Point[], other: readonly Point[]): boolean {
  return ![one, other].some((corners) =>
    [0, 1].some((side) => {
      const [p, q] = [corners[side], corners[side + 1]];
      const across = ([x, y]: Point) => x * (q[1] - p[1]) - y * (q[0] - p[0]);
      const [a, b] = [one.map(across), other.map(across)];
      return Math.max(...a) <= Math.min(...b) || Math.max(...b) <= Math.min(...a);
    }),
  );
}

async function pdfOf(source: { name: string; unit?: 'mm' | 'in' }, paper: Paper = 'A4') {
  const sheets = Object.values(await sheetsOf(source, { unit: source.unit ?? 'mm', paper }));
  return { sheets, pdf: await pdfBytes(drawingsDefinition(sheets, { name: source.name, ...HEAD })) };
}

it.each([
  ['gravelbeck', 'A4'],
  ['gravelbeck-mm', 'Letter'],
  ['larkrise', 'A4'],
  ['stoneyholt', 'A4'],
] as const)('keeps the texts of %s on %s within the frame, and none on another', async (name, paper) => {
  const { sheets, pdf } = await pdfOf(fileAt(`../../../demo-data/${name}.corner.json`), paper);
  const pages = await pagesOf(pdf);
  expect(pages).toHaveLength(4);
  pages.forEach(({ size, texts }, i) => {
    const sheet = sheets[i];
    // 210 × 297 mm of ISO 216; 8 1/2 × 11 in.
    const [short, long] = paper === 'A4' ? [210, 297] : [8.5 * MM_PER_IN, 11 * MM_PER_IN];
    const wanted = sheet.widthMm > sheet.heightMm ? [long, short] : [short, long];
    for (const axis of [0, 1] as const) expect(size[axis]).toBeCloseTo(wanted[axis], 5);
    expect(sheet.ratio).toBeLessThanOrEqual(10);
    expect(texts.map(({ words }) => words).join(' ')).toContain('Do not cut from this sheet');
    for (const { words, corners } of texts)
      for (const [x, y] of corners) {
        expect(x, words).toBeGreaterThan(10);
        expect(x, words).toBeLessThan(size[0] - 10);
        expect(y, words).toBeGreaterThan(10);
        expect(y, words).toBeLessThan(size[1] - 10);
      }
    const meeting = texts.flatMap((one, k) =>
      texts
        .slice(k + 1)
        .flatMap((other) =>
          meet(one.corners, other.corners) ? [`${sheet.key}: ${one.words} | ${other.words}`] : [],
        ),
    );
    expect(meeting).toEqual([]);
  });
});

it('has the same texts as the sheets', async () => {
  const { sheets, pdf } = await pdfOf(fileAt('../../../demo-data/larkrise.corner.json'));
  const pages = await pagesOf(pdf);
  sheets.forEach((sheet, i) => {
    const wanted = readSheet(sheet).texts.join('').replace(/\s/g, '');
    expect(
      pages[i].texts
        .map(({ words }) => words)
        .join('')
        .replace(/\s/g, ''),
    ).toBe(wanted);
  });
});

it('gives the same bytes for the same sheets', async () => {
  const source = fileAt('../../../demo-data/larkrise.corner.json');
  const [{ pdf: once }, { pdf: again }] = [await pdfOf(source), await pdfOf(source)];
  expect(Buffer.compare(once, again)).toBe(0);
  const { metadata, info } = await (
    await getDocument({ data: new Uint8Array(once), verbosity: 0 }).promise
  ).getMetadata();
  expect(metadata).toBeNull();
  expect(info).toMatchObject({
    Title: 'Drawings: Larkrise hill-climb special, front left',
    Creator: 'Daylight 9.9',
    CreationDate: 'D:20260504100000Z',
  });
});

it('writes hostile names as text', async () => {
  const name = '</text><image href="http://127.0.0.1:9/x.png"/><script>alert(1)</script> & "q"';
  const source = fileAt('../../../demo-data/larkrise.corner.json');
  const { pdf } = await pdfOf({ ...source, name });
  const [{ texts }] = await pagesOf(pdf);
  expect(texts.map(({ words }) => words).join('')).toContain('</text><image');
});
