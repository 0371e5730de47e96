import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';

type Matrix = readonly [number, number, number, number, number, number];
type Point = readonly [number, number];

/** A page of a PDF as pdfjs-dist reads it, in points from its lower left corner. */
export interface ReadPage {
  width: number;
  height: number;
  /** Polylines that are stroked, with their colours. */
  strokes: { points: Point[]; colour: string }[];
  texts: string[];
}

const times = (a: Matrix, b: Matrix): Matrix => [
  a[0] * b[0] + a[2] * b[1],
  a[1] * b[0] + a[3] * b[1],
  a[0] * b[2] + a[2] * b[3],
  a[1] * b[2] + a[3] * b[3],
  a[0] * b[4] + a[2] * b[5] + a[4],
  a[1] * b[4] + a[3] * b[5] + a[5],
];

/** Reads the pages: lines alone, in the order of the file. Throws an Error for a curve: the templates have none. */
export async function readPdf(data: Uint8Array): Promise<ReadPage[]> {
  const document = await getDocument({ data: Uint8Array.from(data), verbosity: 0 }).promise;
  const pages: ReadPage[] = [];
  for (let number = 1; number <= document.numPages; number++) {
    const page = await document.getPage(number);
    const [left, bottom, right, top] = page.view;
    const { fnArray, argsArray } = await page.getOperatorList();
    const strokes: ReadPage['strokes'] = [];
    let matrix: Matrix = [1, 0, 0, 1, 0, 0];
    let colour = '';
    const saved: { matrix: Matrix; colour: string }[] = [];
    fnArray.forEach((operator, i) => {
      const args = argsArray[i];
      if (operator === OPS.save) saved.push({ matrix, colour });
      if (operator === OPS.restore) ({ matrix, colour } = saved.pop() ?? { matrix, colour });
      if (operator === OPS.transform) matrix = times(matrix, args as Matrix);
      if (operator === OPS.setStrokeRGBColor) colour = String(args[0]);
      if (operator !== OPS.constructPath) return;
      const [painting, [path]] = args as [number, [Float32Array | null]];
      if (path === null || (painting !== OPS.stroke && painting !== OPS.closeStroke)) return;
      strokes.push(...polylines(path, matrix).map((points) => ({ points, colour })));
    });
    const { items } = await page.getTextContent();
    pages.push({
      width: right - left,
      height: top - bottom,
      strokes,
      texts: items.flatMap((item) => ('str' in item && item.str !== '' ? [item.str] : [])),
    });
  }
  return pages;
}

/** The polylines of a path of pdfjs: 0 moves, 1 draws a line, 4 closes. */
function polylines(path: Float32Array, [a, b, c, d, e, f]: Matrix): Point[][] {
  const found: Point[][] = [];
  for (let i = 0; i < path.length; ) {
    const code = path[i];
    const [x, y] = [path[i + 1], path[i + 2]];
    if (code === 0 || code === 1) {
      if (code === 0) found.push([]);
      found[found.length - 1].push([a * x + c * y + e, b * x + d * y + f]);
      i += 3;
    } else if (code === 4) {
      found[found.length - 1].push(found[found.length - 1][0]);
      i += 1;
    } else throw new Error(`a curve in the path: ${code}`);
  }
  return found;
}
