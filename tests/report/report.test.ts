import { XMLValidator } from 'fast-xml-parser';
import { marked } from 'marked';
import { type DefaultTreeAdapterMap, parse, parseFragment } from 'parse5';
import { describe, expect, it } from 'vitest';
import { CAUTIONS } from '../../src/report/cautions.ts';
import { figuresIn } from '../../src/report/figures.ts';
import { findingsJson } from '../../src/report/findingsJson.ts';
import { reportHtml } from '../../src/report/html.ts';
import { inputSection } from '../../src/report/inputSection.ts';
import { reportMarkdown } from '../../src/report/markdown.ts';
import { spotsOf } from '../../src/report/pictures.ts';
import type { ReportInput } from '../../src/report/reportInput.ts';
import { atPose, proofOf } from '../oracles/inventedProof.ts';
import { cornerSource } from './cornerSource.ts';
import { type FixtureOptions, reportInput } from './fixture.ts';

type Node = DefaultTreeAdapterMap['node'];
type Element = DefaultTreeAdapterMap['element'];

const children = (node: Node): Node[] => ('childNodes' in node ? node.childNodes : []);
const isElement = (node: Node): node is Element => 'tagName' in node;

function elements(node: Node, tag: string): Element[] {
  return children(node).flatMap((child) => [
    ...(isElement(child) && child.tagName === tag ? [child] : []),
    ...elements(child, tag),
  ]);
}

const words = (node: Node): string =>
  'value' in node ? node.value : children(node).map(words).join('').replace(/\s+/g, ' ').trim();

/** Title, headings, paragraphs, list items and table cells in order, without the picture. */
function readable(node: Node): string[] {
  return children(node).flatMap((child) => {
    if (!isElement(child)) return [];
    if (['figure', 'style', 'title'].includes(child.tagName)) return [];
    // Markdown has headings in place of folded details.
    if (['summary', 'h3'].includes(child.tagName)) return [`h3 ${words(child)}`];
    if (['h1', 'h2', 'p', 'li', 'th', 'td'].includes(child.tagName))
      return [`${child.tagName} ${words(child)}`];
    return readable(child);
  });
}

const MIXED: FixtureOptions = {
  travelSteps: 9,
  steerSteps: 7,
  reaches: (travelMm, steer) => !(travelMm > 40 && steer > 0.5),
  measure: (pair, travelMm, steer) => {
    if (pair === 0) return { mm: 12 + 0.2 * travelMm - 8 * steer, errorMm: 0.1 };
    if (pair === 1) return { mm: 1.2345, errorMm: 0.08 };
    if (pair === 2) return { mm: Number.POSITIVE_INFINITY, errorMm: 0 };
    return travelMm < -40 ? undefined : { mm: 30 + travelMm / 5, errorMm: 0.05 };
  },
};

/** Strings that would break out of HTML or Markdown if they were not escaped. */
const HOSTILE = [
  '<script>alert(1)</script>',
  '</style></title><img src=x onerror=alert(1)>',
  'a | b \\| c',
  '`code` *bold* _em_ ~~gone~~ [link](javascript:alert(1)) ![x](y)',
  '# heading',
  '&lt;b&gt; &amp; "quoted" \'single\'',
  'https://example.com www.example.com someone@example.com',
  '1. first',
  '- item',
  '==',
];

const hostileSource = () => {
  const source = cornerSource();
  source.name = HOSTILE[0];
  source.note = `${HOSTILE.join('\n')}\n \n${HOSTILE.toReversed().join('\r\n')}`;
  source.parts.forEach((part, i) => {
    part.label = HOSTILE[i + 1];
  });
  return source;
};

/** Parse errors by parse5; none for a valid document. */
function parseErrors(html: string): string[] {
  const errors: string[] = [];
  parse(html, { onParseError: (error) => errors.push(`${error.code} at ${error.startLine}`) });
  return errors;
}

/** Proof of MIXED's pairs: contact, a fit pair, a far pair, and one with its least clearance between steps. */
const proven: FixtureOptions['proof'] = ({ carriers }) =>
  proofOf(
    [
      { foundMm: -6 },
      { lowerMm: 1.2345, foundMm: 1.2345 },
      { lowerMm: 26 },
      {
        lowerMm: 20.0621,
        foundMm: 20.1537,
        between: atPose(20.1537, { errorMm: 0.05, carriers: carriers.subarray(0, 108) }),
      },
    ],
    [{ travelMm: [41.25, 60], steer: [0.5, 1], whole: false, reason: 'The tie rod cannot reach.' }],
  );
const PROVEN: FixtureOptions = {
  ...MIXED,
  measure: (pair, travelMm, steer) =>
    pair === 3 ? { mm: 30 + travelMm / 5, errorMm: 0.05 } : MIXED.measure?.(pair, travelMm, steer),
  proof: proven,
};

/** The section of all pairs. */
const allPairs = (markdown: string): string => markdown.split('## All pairs')[1].split('\n## ')[0];

const cases: [string, ReportInput][] = [
  ['mixed', reportInput(MIXED)],
  ['mixed, inches', reportInput({ ...MIXED, unit: 'in' })],
  ['right', reportInput({ ...MIXED, source: cornerSource({ side: 'right' }) })],
  ['clear', reportInput()],
  ['proven', reportInput(PROVEN)],
  ['proven, right, inches', reportInput({ ...PROVEN, unit: 'in', source: cornerSource({ side: 'right' }) })],
  ['hostile', reportInput({ ...MIXED, source: hostileSource(), targetOrigin: HOSTILE.join(' ') })],
];

describe.each(cases)('report: %s', (_, input) => {
  const html = reportHtml(input);
  const markdown = reportMarkdown(input);

  it('is valid, self-contained HTML', () => {
    expect(parseErrors(html)).toEqual([]);
    const document = parse(html);
    for (const tag of ['script', 'link', 'img', 'iframe', 'object'])
      expect(elements(document, tag)).toEqual([]);
    expect(html).not.toMatch(/url\((?!#)|@import/);
    // The corner, the map, and for each of the tightest pairs its section and, if it moves, its curves.
    const spots = spotsOf(input);
    const curves = spots.filter(({ pair }) => input.result.pairs[pair].moves).length;
    const drawings = elements(document, 'svg');
    expect(drawings).toHaveLength(2 + spots.length + curves);
    for (const drawing of drawings) expect(elements(drawing, 'path').length).toBeGreaterThan(0);
    // An SVG reader and the PDF read the drawings as XML.
    for (const [svg] of html.matchAll(/<svg.*?<\/svg>/gs)) expect(XMLValidator.validate(svg)).toBe(true);
    // Every link leads to a section of the report.
    const ids = elements(document, 'section').flatMap(({ attrs }) =>
      attrs.filter(({ name }) => name === 'id'),
    );
    const links = elements(document, 'a').flatMap(({ attrs }) => attrs.map(({ value }) => value));
    expect(links.length).toBeGreaterThanOrEqual(spots.length);
    for (const link of links) expect(ids.map(({ value }) => `#${value}`)).toContain(link);
    expect(words(elements(document, 'title')[0])).toBe(`Clearance report: ${input.design.corner.name}`);
  });

  it('has the same text and figures in HTML and Markdown', () => {
    const fromHtml = readable(parse(html));
    const fromMarkdown = readable(parseFragment(marked.parse(markdown, { async: false, gfm: true })));
    expect(fromMarkdown).toEqual(fromHtml);
    expect(fromHtml.length).toBeGreaterThan(150);
  });

  it('contains every caution, and whether the poses between the steps are proven', () => {
    const lines = readable(parse(html));
    for (const caution of CAUTIONS) expect(lines).toContain(`li ${caution}`);
    const nothing = lines.filter((line) => line.includes('What happens between two steps is not proven'));
    const bounds = lines.filter((line) => line.includes('The poses between the steps are proven'));
    const { lockedOut } = input.findings;
    expect([nothing.length, bounds.length]).toEqual(lockedOut === undefined ? [2, 0] : [0, 1]);
    expect(lines.some((line) => line.endsWith('proven between them.'))).toBe(true);
    expect(lines.some((line) => line === 'th Nowhere below')).toBe(lockedOut !== undefined);
  });

  it('is the same, byte for byte, if made again', () => {
    expect(reportHtml(input)).toBe(html);
    expect(reportMarkdown(input)).toBe(markdown);
  });
});

describe('report', () => {
  it('gives clearance, error, margin, pose and place of a touching pair', () => {
    const markdown = reportMarkdown(reportInput(MIXED));
    // Least at full droop, front edge outboard: 12 - 10 - 8 = -6; margin -6 - 5.
    expect(markdown).toContain(
      '| 1 | ✕ touches | Tie rod ↔ Battery | −6.00 ± 0.10 | 5.00 | 0.00 | −11.00 | −50.0 | +40.0 |',
    );
    expect(markdown).toContain('**✕ touches.** 1 pair touches.');
    expect(markdown).toContain('Least margin: Tie rod ↔ Battery, clearance −6.00 ± 0.10 mm');
    // 1.2345 is shown as 1.23, which adds 0.0045 to the error: 0.0845, shown as 0.09.
    expect(markdown).toContain(
      '| ◣ tight | Wheel speed sensor ↔ Lower arm | 1.23 ± 0.09 | 2.00 | 0.00 | −0.77 |',
    );
    expect(markdown).toContain(
      '1 pair stays at least 60.00 mm apart at every step. Targets in brackets, mm:',
    );
    expect(markdown).toContain('| Wheel speed sensor | Battery (5.00) |');
    expect(markdown).toMatch(
      /bump \+45\.0 mm to bump \+60\.0 mm, rack \+26\.7 to \+40\.0 mm \(\d+ steps\): the tie rod is too short/,
    );
    expect(markdown).toContain('they are bolted together');
  });

  it('shows a fit pair at ride height, about the wheel axis', () => {
    // Sensor at X -60, Z level with the axis except for camber; the hub face is 20 inboard of the wheel centre.
    const markdown = reportMarkdown(reportInput(MIXED));
    expect(markdown).toMatch(
      /Wheel speed sensor: X −60\.0, Y \+660\.0, Z \+330\.0 mm; 89\.\d° rearward of the top, 59\.\d mm/,
    );
  });

  it('mirrors a right corner: Y, rack and wheel angle change sign, places about the wheel do not', () => {
    const left = reportMarkdown(reportInput(MIXED));
    const right = reportMarkdown(reportInput({ ...MIXED, source: cornerSource({ side: 'right' }) }));
    const row = (text: string) => /\| 1 \| ✕ touches .*/.exec(allPairs(text))?.[0].split(' | ').slice(-3);
    expect(row(left)).toEqual(['−50.0', '+40.0', expect.stringMatching(/^\+2\d\.\d° \|$/)]);
    expect(row(right)).toEqual(['−50.0', '−40.0', row(left)?.[2].replace('+', '−')]);
    const place = (text: string) => /Wheel speed sensor: (X .*? mm); (.*?) \|/.exec(text)?.slice(1);
    expect(place(right)?.[0]).toBe(place(left)?.[0].replace('Y +', 'Y −'));
    expect(place(right)?.[1]).toBe(place(left)?.[1]);
    expect(right).toContain('This is a right corner');
    expect(left).not.toContain('This is a right corner');
  });

  it('keeps the lines and paragraphs of the note', () => {
    const source = cornerSource();
    source.note = 'Five-stud hub, 5 x 127.\nBore turned by hand.\n\n- to be measured again';
    const input = reportInput({ ...MIXED, source });
    expect(reportHtml(input)).toContain(
      '<p>Five-stud hub, 5 x 127.<br>Bore turned by hand.</p>\n<p>- to be measured again</p>',
    );
    expect(reportMarkdown(input)).toContain(
      '\n\nFive-stud hub, 5 x 127.\\\nBore turned by hand.\n\n\\- to be measured again\n\n',
    );
  });

  it('lets only long words break in its tables, so that sizes stay whole and no table is wider than the page', () => {
    const source = cornerSource();
    const long = 'x'.repeat(60);
    [source.parts[0].label, source.parts[1].label] = [long, '265/75R16'];
    const cells = [...reportHtml(reportInput({ ...MIXED, source })).matchAll(/<td([^>]*)>([^<]*)</g)];
    const classesOf = (word: string) =>
      new Set(
        cells.filter(([, , text]) => text.split(' ').includes(word)).map(([, attributes]) => attributes),
      );
    expect([...classesOf(long)]).toEqual([' class="long"']);
    const alone = cells.filter(([, , text]) => text.includes('265/75R16') && !text.includes(long));
    expect(alone.length).toBeGreaterThan(0);
    for (const [, attributes] of alone) expect(attributes).not.toContain('long');
  });

  it('shows inputs as typed and marks the assumed ones', () => {
    const markdown = reportMarkdown(reportInput());
    expect(markdown).toContain('| Lower arm | tubeDiameter | 1 1/4 in | 31.75 mm |  |  |');
    expect(markdown).toContain(
      '120; 640; 9 27/32 in ±1/32 | 120.00 mm; 640.00 mm; 250.03 mm | –; –; 0.80 mm |  |',
    );
    expect(markdown).toMatch(/\| Tie rod \| endGap \| {2}\| 45\.00 mm \| {2}\| assumed: default \|/);
  });

  it('lists the assumed values in both forms: defaults, and values that the file lists as assumed', () => {
    const { suspension, parts } = cornerSource();
    const input = reportInput({
      source: cornerSource({
        suspension: { ...suspension, assumed: ['hardpoints.lowerJoint'] },
        parts: parts.map((part) => (part.id === 'battery' ? { ...part, assumed: ['size[1]'] } : part)),
      }),
    });
    const listOf = (text: string) => text.split(/## Inputs|<h2>Inputs/)[1].split(/## Method|<h2>Method/)[0];
    const markdown = listOf(reportMarkdown(input));
    const rows = [...markdown.matchAll(/^\| .* \| assumed: (default|starting value) \|$/gm)];
    expect(markdown).toContain(`${rows.length} values are assumed`);
    expect(rows.filter(([, what]) => what === 'starting value')).toHaveLength(2);
    const marked = (part: string, field: string, inUse: string, origin: string) =>
      expect(markdown).toMatch(
        new RegExp(`\\| ${part} \\| ${field} \\| .* \\| ${inUse} \\| .* \\| assumed: ${origin} \\|`),
      );
    marked('', 'suspension.hardpoints.lowerJoint', '5.00 mm; 660.00 mm; 200.00 mm', 'starting value');
    marked('Battery', 'size', '150.00 mm; 60.00 mm; 50.00 mm', 'starting value');
    marked('Tie rod', 'endGap', '45.00 mm', 'default');
    const html = listOf(reportHtml(input));
    for (const text of ['hardpoints.lowerJoint', 'endGap', 'starting value']) expect(html).toContain(text);
    const paths: string[] = JSON.parse(findingsJson(input, '1.2.3')).assumedInputs;
    expect(paths).toEqual(
      expect.arrayContaining(['suspension.hardpoints.lowerJoint[2]', 'parts[3].size[1]', 'parts[2].endGap']),
    );
    expect(paths).not.toContain('parts[3].size[0]');
  });

  it('reports that no value is assumed', () => {
    const { design } = reportInput();
    const inputs = design.inputs.map((record) => ({ ...record, assumed: false }));
    const [note] = inputSection({ ...design, inputs }, figuresIn('mm')).blocks;
    expect(note).toMatchObject({ text: expect.stringMatching(/No value is assumed\.$/) });
  });

  it('rejects results of another state of the design', () => {
    const input = reportInput();
    const stale = { ...input, result: { ...input.result, designHash: '0'.repeat(64) } };
    expect(() => reportHtml(stale)).toThrow(/another state of the design/);
    expect(() => reportMarkdown(stale)).toThrow(/another state of the design/);
  });
});

describe('report of a sweep with a proof', () => {
  const markdown = reportMarkdown(reportInput(PROVEN));

  it('gives the least clearance found and the lower bound of each pair, errors subtracted', () => {
    // The error of the least clearance is subtracted from the proven bound: 20.0621 - 0.05.
    expect(markdown).toContain(
      '| clear | Lower arm ↔ Battery | 20.15 ± 0.06 | 20.01 | 6.35 | 0.00 | 13.80 | +12.5 | +15.0 | +9.0° |',
    );
    expect(markdown).toContain('| ✕ touches | Tie rod ↔ Battery | −6.00 ± 0.10 | – | 5.00 |');
    // The clearance of a fit pair is the same at every pose.
    expect(markdown).toContain(
      '| ◣ tight | Wheel speed sensor ↔ Lower arm | 1.23 ± 0.09 | fit | 2.00 | 0.00 | −0.77 | fit |  |  |',
    );
  });

  it('gives the lower bound of far pairs between steps', () => {
    // 26 less two chord errors of 0.0123, a target of 5 and an allowance of 1: 19.9754.
    expect(markdown).toContain(
      'at least 60.00 mm apart at every step. Between the steps, each pair that moves keeps at least 19.97 mm more than its target and allowances.',
    );
  });

  it('gives the interval of the least clearance, and warns that contact may be deeper', () => {
    // 20.1537 - 20.0621 = 0.0916, rounded up.
    expect(markdown).toContain('the least distance between its meshes is known to within 0.10 mm');
    expect(markdown).toContain(
      'outside the parts where the suspension locks out, at no pose, at a step or between steps,',
    );
    expect(markdown).toContain('it may be deeper between steps than shown');
  });

  it('lists the lock-outs as cautions, for the side of the corner', () => {
    expect(markdown).toContain(
      '> - Nothing is proven in 1 part of the travel and steering, because the suspension locks out there or nearby. See Poses out of reach.',
    );
    expect(markdown).toContain(
      '> - travel +41.2 to +60.0, rack +20.0 to +40.0 mm: reached at most in part. The tie rod cannot reach.',
    );
    const right = reportMarkdown(reportInput({ ...PROVEN, source: cornerSource({ side: 'right' }) }));
    expect(right).toContain('> - travel +41.2 to +60.0, rack −40.0 to −20.0 mm: reached at most in part.');
  });

  it('reports a pair without a proof as unknown', () => {
    const unproven = reportInput({ proof: () => proofOf([{ complete: false }, {}, {}, {}]) });
    const text = reportMarkdown(unproven);
    expect(text).toMatch(/\| \? unknown \| Tie rod ↔ Battery \| 20\.00 ± 0\.10 \| not proven \|/);
    expect(text).toContain('- No. 1: not proven between the steps.');
    expect(text).toContain('4 pairs are unknown at some poses.');
  });

  it('reports that a clear corner is clear between the steps as well', () => {
    const pairs = Array.from({ length: 4 }, () => ({ lowerMm: 19.9, foundMm: 20 }));
    const clear = reportInput({ proof: () => proofOf(pairs) });
    const text = reportMarkdown(clear);
    expect(text).toContain('4 pairs checked; all keep their target at every pose, at and between the steps.');
    expect(text).toContain('clearance 20.00 ± 0.10 mm, nowhere below 19.80 mm, against a target');
    expect(text).toContain('reaches every pose of its travel and steering, at the steps and between them');
    const stepsOnly = reportMarkdown(reportInput());
    expect(stepsOnly).toContain('all keep their target at the poses checked.');
    expect(stepsOnly).not.toMatch(/[Nn]owhere below|between the steps/);
  });

  it('gives the number of assumed values of a clear corner, and those of the tightest pairs', () => {
    const { suspension, parts } = cornerSource();
    const source = cornerSource({
      suspension: { ...suspension, assumed: ['hardpoints'] },
      parts: parts.map((part) => (part.id === 'lowerArm' ? { ...part, assumed: ['tubeDiameter'] } : part)),
    });
    const text = reportMarkdown(reportInput({ source }));
    const counts = [...text.matchAll(/(\d+) (?:assumed values|values are assumed)/g)].map(([, n]) => n);
    expect(text).toMatch(/\*\*clear, with \d+ assumed values\.\*\*/);
    expect(counts.length).toBeGreaterThan(2);
    expect(new Set(counts).size).toBe(1);
    expect(text).toContain('values are assumed, including every suspension point.');
    expect(text).toMatch(/Measure first, for the tightest pairs: .*Lower arm \(tube diameter\b/);
    const some = cornerSource({ suspension: { ...suspension, assumed: ['hardpoints.upperJoint'] } });
    expect(reportMarkdown(reportInput({ source: some }))).toContain(', including 1 of 9 suspension points.');
  });

  it('groups many locked-out parts by reason', () => {
    const part = { steer: [0, 1], whole: true, reason: 'Too short.' } as const;
    const lockedOut = Array.from({ length: 13 }, (_, i) => ({
      ...part,
      travelMm: [20 + i, 21 + i] as const,
    }));
    const pairs = Array.from({ length: 4 }, () => ({ lowerMm: 19.9, foundMm: 20 }));
    const text = reportMarkdown(reportInput({ proof: () => proofOf(pairs, lockedOut) }));
    expect(text).toContain(
      '> - 13 parts within travel +20.0 to +33.0, rack 0.0 to +40.0 mm: not reached at any step. Too short.',
    );
    expect(text).toContain('all keep their target at every pose that the suspension is shown to reach.');
  });
});
