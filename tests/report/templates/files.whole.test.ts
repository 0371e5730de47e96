import { parseFragment } from 'parse5';
import { describe, expect, it } from 'vitest';
import { pdfBytes } from '../../../src/cli/pdf.ts';
import { figuresIn } from '../../../src/report/figures.ts';
import { type Cutting, cuttingWarnings, kerfNote } from '../../../src/report/templates/cutting.ts';
import { templateFiles } from '../../../src/report/templates/templateFiles.ts';
import type { FlatPlate } from '../../../src/solids/flatPlates/flatPlate.ts';
import { readDxf, readDxfAgain } from './readDxf.ts';
import { STADIUM_MM2, stadium } from './stadium.ts';

const UNCUT: Cutting = { process: undefined, kerfMm: undefined };

const OPTIONS = {
  cutting: UNCUT,
  figures: figuresIn('mm'),
  paper: 'A4',
  date: new Date('2026-03-01T12:00:00Z'),
  pdfBytes,
} as const;

async function filesOf(plate: FlatPlate): Promise<Record<string, string>> {
  const files = await templateFiles([plate], OPTIONS);
  return Object.fromEntries(files.map(({ name, data }) => [name.slice(plate.id.length), String(data)]));
}

describe('DXF files of a template', () => {
  it.each([
    ['.dxf', 'AC1015'],
    ['.r12.dxf', 'AC1009'],
  ])(
    '%s is %s in millimetres, and two readers find the areas and holes computed by hand',
    async (name, version) => {
      const text = (await filesOf(stadium()))[name];
      const read = readDxf(text);
      expect(read.header).toMatchObject({ $ACADVER: version, $INSUNITS: 4, $MEASUREMENT: 1 });
      expect(read.layers).toEqual(expect.arrayContaining(['CUT', 'MARK', 'BEND', 'TEXT', 'CHECK']));
      const [outline, ...round] = read.areasOn('CUT');
      expect(outline).toBeCloseTo(STADIUM_MM2, 6);
      expect(round).toEqual([Math.PI * 9, Math.PI * 25]);
      expect(read.circlesOn('CUT')).toEqual([
        { x: 20, y: 0, r: 3 },
        { x: 0, y: 0, r: 5 },
      ]);
      // A hole whose size is unknown is marked with its bolt's diameter and not cut.
      expect(read.circlesOn('MARK')).toEqual([{ x: 40, y: 0, r: 4 }]);
      const again = readDxfAgain(text);
      expect(again.circlesOn('CUT')).toEqual(read.circlesOn('CUT'));
      expect(again.count).toBe(read.count);
      expect(again.header).toMatchObject({ insUnits: 4 });
    },
  );

  it('have check bars of exactly 100 mm and 4 in, across and upright', async () => {
    for (const name of ['.dxf', '.r12.dxf']) {
      const bars = readDxf((await filesOf(stadium()))[name])
        .linesOn('CHECK')
        .filter(({ length }) => length > 10);
      expect(bars.map(({ length }) => length).toSorted()).toEqual([
        100,
        100,
        expect.closeTo(101.6, 9),
        expect.closeTo(101.6, 9),
      ]);
      expect(bars.filter(({ upright }) => upright).map(({ length }) => length)).toEqual([
        expect.closeTo(100, 9),
        expect.closeTo(101.6, 9),
      ]);
    }
  });

  it('give R2000 its sections, each entity a handle of its own, and a larger seed', async () => {
    const lines = (await filesOf(stadium()))['.dxf'].split('\n');
    const sections = lines.flatMap((line, i) => (line === 'SECTION' ? [lines[i + 2]] : []));
    expect(sections).toEqual(['HEADER', 'CLASSES', 'TABLES', 'BLOCKS', 'ENTITIES', 'OBJECTS']);
    const body = lines.slice(lines.indexOf('CLASSES'));
    const handles = body.flatMap((line, i) =>
      (line === '  5' || line === '105') && i % 2 === body.indexOf('  5') % 2 ? [body[i + 1]] : [],
    );
    expect(new Set(handles).size).toBe(handles.length);
    const seed = Number.parseInt(lines[lines.indexOf('$HANDSEED') + 2], 16);
    for (const handle of handles) expect(Number.parseInt(handle, 16)).toBeLessThan(seed);
  });
});

describe('SVG file of a template', () => {
  it('is in real units: one unit of the view box is one millimetre', async () => {
    const text = (await filesOf(stadium()))['.svg'];
    const [, width, height, viewBox] =
      /<svg [^>]*width="([\d.]+)mm" height="([\d.]+)mm" viewBox="([^"]+)"/.exec(text) ?? [];
    expect(viewBox).toBe(`0 0 ${width} ${height}`);
    const bars = [...text.matchAll(/<line x1="([\d.]+)" y1="([\d.]+)" x2="([\d.]+)" y2="([\d.]+)"/g)]
      .map(([, ...ends]) => ends.map(Number))
      .map(([x1, y1, x2, y2]) => Math.hypot(x2 - x1, y2 - y1).toFixed(4));
    expect(bars.filter((length) => length === '100.0000')).toHaveLength(2);
    expect(bars.filter((length) => length === '101.6000')).toHaveLength(2);
    expect(text).toMatch(/A10 10 0 0 0 /);
  });
});

const HOSTILE = [
  '</title><script>window.__x=1</script><img src=x onerror=window.__x=1> & "q" \'s\' ]]>',
  'a\n  0\nLINE\n  8\nCUT\r\n 10\n0.0',
  '%%c %%nnn ^J \\P \\U+0041 {\\fArial;x}',
  '\u202ertl\u0000\u001b[31m \u{1F600} Ø ± é',
];

describe('hostile names', () => {
  it.each(HOSTILE)('add nothing to a file: %j', async (name) => {
    const plain = await filesOf(stadium());
    const words = (text: string) => ({
      ...stadium({ name: text, notes: [text], sideUp: text, origin: text }),
      holes: stadium().holes.map((hole) => ({ ...hole, use: text })),
      marks: stadium().marks.map((mark) => ({ ...mark, label: text })),
    });
    const files = await filesOf(words(name));
    for (const version of ['.dxf', '.r12.dxf']) {
      const read = readDxf(files[version]);
      expect(files[version]).toMatch(/^[\n\x20-\x7e]*$/);
      const shapes = (one: ReturnType<typeof readDxf>) =>
        ['CUT', 'MARK', 'BEND', 'CHECK'].map((layer) => [one.areasOn(layer), one.linesOn(layer)]);
      expect(shapes(read)).toEqual(shapes(readDxf(plain[version])));
      for (const text of read.texts) expect(text).not.toMatch(/[%^]|\\(?!U\+[0-9A-F]{4})/);
    }
    const elements: string[] = [];
    const visit = (node: { nodeName?: string; childNodes?: unknown[] }) => {
      if (node.nodeName !== undefined && !node.nodeName.startsWith('#')) elements.push(node.nodeName);
      for (const child of node.childNodes ?? []) visit(child as typeof node);
    };
    visit(parseFragment(files['.svg'].replace(/^<\?xml[^>]*>\n/, '')) as never);
    expect(new Set(elements)).toEqual(
      new Set(['svg', 'title', 'rect', 'g', 'line', 'path', 'circle', 'text']),
    );
    expect(files['.svg']).not.toMatch(/(?!\n)\p{Cc}|\u202e/u);
  });

  it('make no two plates write one file, also where case does not count', async () => {
    const files = await templateFiles([stadium({ id: 'a' }), stadium({ id: 'A' })], OPTIONS);
    expect(new Set(files.map(({ name }) => name.toLowerCase())).size).toBe(files.length);
  });
});

describe('limits of cutting', () => {
  const figures = figuresIn('mm');

  it('name holes below 1.5 thicknesses for plasma, and one thickness for laser', () => {
    // newayprecision.com: 1.5 t. Holes of 10, 8 and 6 mm.
    const small = (thicknessMm: number, process: 'plasma' | 'laser') =>
      cuttingWarnings(stadium({ thicknessMm }), { process, kerfMm: undefined }, figures).filter((text) =>
        /too small/.test(text),
      ).length;
    expect([4, 4.1, 5.4, 6.7].map((t) => small(t, 'plasma'))).toEqual([0, 1, 2, 3]);
    expect([6, 6.1, 8.1, 10.1].map((t) => small(t, 'laser'))).toEqual([0, 1, 2, 3]);
    expect(cuttingWarnings(stadium({ thicknessMm: 20 }), UNCUT, figures)).toEqual([]);
  });

  it('measure the metal between holes and to the edge', () => {
    // 5 mm from the hole of 10 to the edge, 6 mm to the edge at the other end, 12 and 13 mm to the opening, 7 above it.
    const near = (thicknessMm: number) =>
      cuttingWarnings(stadium({ thicknessMm }), { process: 'laser', kerfMm: undefined }, figures).filter(
        (text) => /too little/.test(text),
      );
    expect(near(4.99)).toEqual([]);
    expect(near(5.01)).toHaveLength(1);
    expect(near(5.01)[0]).toMatch(/^Hole 1: 5\.00 mm of metal to the edge/);
    expect(near(6.01)).toHaveLength(2);
    expect(near(7.01)).toHaveLength(3);
    expect(near(12.01)).toHaveLength(4);
  });

  it('say what an uncorrected cut does: a 2 in square is 1.950 in, a 0.500 in hole 0.550 in, with a cut of 0.050 in', () => {
    // cutarc.io.
    const note = kerfNote({ process: 'plasma', kerfMm: 0.05 * 25.4 }, figuresIn('in'));
    expect(note).toContain('0.025 in outside the outline');
    expect(note).toContain('the plate is 0.050 in smaller and each hole 0.050 in larger');
  });
});

describe('templates', () => {
  it('are the same bytes for the same plate', async () => {
    expect(await filesOf(stadium())).toEqual(await filesOf(structuredClone(stadium())));
  });
});
