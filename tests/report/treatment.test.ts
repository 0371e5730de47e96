import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { figuresIn } from '../../src/report/figures.ts';
import { findingsJson } from '../../src/report/findingsJson.ts';
import { reportHtml } from '../../src/report/html.ts';
import { reportMarkdown } from '../../src/report/markdown.ts';
import { resultsJson } from '../../src/report/resultsJson.ts';
import { pairTable } from '../../src/report/table.ts';
import {
  countsInWords,
  coverInWords,
  farInWords,
  treatmentCounts,
  treatmentInWords,
} from '../../src/report/treatment.ts';
import { treatmentText } from '../../src/report/treatmentText.ts';
import { zonePlaceInWords, zoneSizeInWords } from '../../src/report/zoneInWords.ts';
import { buildSolids } from '../../src/solids/catalogue.ts';
import type { Zone } from '../../src/solids/solid.ts';
import { planPairs } from '../../src/sweep/pairs.ts';
import { minimalCorner } from '../design/fixtures.ts';
import { readDesign } from '../design/readDesign.ts';
import { cornerSource } from './cornerSource.ts';
import { type FixtureOptions, reportInput } from './fixture.ts';

const BALL: Zone = { what: 'ball in its seat', shape: 'sphere', centre: [5, 660, 200], radiusMm: 16 };
const BOLT: Zone = {
  shape: 'slab',
  centre: [-60, 660, 330],
  axis: [0, 1, 0],
  halfThicknessMm: 6.0001,
  radiusMm: 8,
};
const mm = figuresIn('mm');

describe('the three treatments of pairs', () => {
  it.each([
    ['a small corner', JSON.stringify(minimalCorner())],
    ['a demo', readFileSync(new URL('../../demo-data/gravelbeck.corner.json', import.meta.url), 'utf8')],
  ])('add up to n(n - 1) / 2 pairs in %s, and each treatment occurs', async (_, text) => {
    const design = readDesign(text);
    const { corner } = design;
    const solids = await buildSolids(corner, 1);
    const { pairs, unchecked } = planPairs(corner, solids);
    const { everywhere, outsideZones, notChecked } = treatmentCounts(pairs, unchecked);
    expect(everywhere + outsideZones + notChecked).toBe((solids.length * (solids.length - 1)) / 2);
    expect(Math.min(everywhere, outsideZones, notChecked)).toBeGreaterThan(0);
  });

  it('are counted in one sentence', () => {
    const pairs = [{ zones: [] }, { zones: [] }, { zones: [BALL, BOLT] }];
    const counts = treatmentCounts(pairs, [{ a: 0, b: 1, why: 'both are fixed to the chassis' }]);
    expect(countsInWords(counts)).toBe(
      '4 pairs: 2 measured everywhere, 1 measured outside zones of intended contact, 1 not checked',
    );
    expect(pairs.map(treatmentInWords)).toEqual([
      'measured everywhere',
      'measured everywhere',
      'measured outside 2 zones',
    ]);
  });

  it('name the dimension checks that cover an unchecked pair', () => {
    const pair = { a: 0, b: 1, why: 'clamped together on the studs' };
    expect(coverInWords(pair)).toBe('none');
    expect(coverInWords({ ...pair, coveredBy: ['pilot in bore', 'studs in holes'] })).toBe(
      'pilot in bore, studs in holes',
    );
  });
});

describe('a pair with nothing within the search limit', () => {
  it('is far if it is measured everywhere, and joined if it has zones', () => {
    expect(farInWords([{ zones: [] }], 60, mm)).toBe('far');
    expect(farInWords([{ zones: [BALL] }], 60, mm)).toBe('joined; nothing else within 60 mm');
    expect(farInWords([{ zones: [BALL] }], 63.5, figuresIn('in'))).toBe('joined; nothing else within 2.5 in');
    expect(farInWords([{ zones: [BALL] }, { zones: [] }], 60, mm)).toBe(
      'nothing within 60 mm except joined parts',
    );
  });
});

describe('a zone as text', () => {
  const { corner } = readDesign(cornerSource());

  it('has a size, rounded up', () => {
    expect(zoneSizeInWords(BALL, mm)).toBe('sphere, 32.00 mm diameter');
    expect(zoneSizeInWords(BOLT, mm)).toBe('disc, 16.00 mm diameter, 12.01 mm thick');
    expect(zoneSizeInWords(BOLT, figuresIn('in'))).toBe('disc, 0.630 in diameter, 0.473 in thick');
  });

  it('has a place from the nearest joint, in vehicle axes and about the wheel axis', () => {
    const [arm, upright] = [{ carrier: 'lowerArm' as const }, { carrier: 'upright' as const }];
    expect(zonePlaceInWords(corner, BALL, [arm], mm)).toBe(
      'at the lower joint; X +5.0, Y +660.0, Z +200.0 mm',
    );
    const off: Zone = { ...BALL, centre: [5, 660, 226] };
    expect(zonePlaceInWords(corner, off, [arm], mm)).toMatch(/^26\.0 mm from the lower joint; X /);
    // 60 mm rearward of the wheel centre and level with it: far from every joint.
    expect(zonePlaceInWords(corner, BOLT, [arm, upright], mm)).toMatch(
      /^X −60\.0, Y \+660\.0, Z \+330\.0 mm; 89\.\d° rearward of the top, 59\.\d mm from the wheel axis/,
    );
  });
});

describe.each(['left', 'right'] as const)('zones in the files of a %s corner', (side) => {
  const input = reportInput({
    source: cornerSource({ side }),
    zones: [BALL, BOLT],
    coveredBy: ['bolt circle'],
  });
  const findings = JSON.parse(findingsJson(input, '1.2.3'));
  const results = JSON.parse(resultsJson(input, '1.2.3'));
  const y = side === 'right' ? -1 : 1;

  it.each([
    ['findings.json', findings],
    ['results.json', results],
  ])('%s has the treatment of each pair, and each zone with its size and place', (_, file) => {
    const pair = (a: string, b: string) =>
      file.pairs.find((one: { a: string; b: string }) => one.a === a && one.b === b);
    expect(pair('tieRod', 'battery')).toMatchObject({ treatment: 'everywhere', zones: [] });
    expect(pair('sensor', 'lowerArm')).toMatchObject({
      treatment: 'outsideZones',
      zones: [
        {
          what: 'ball in its seat',
          shape: 'sphere',
          centreMm: [5, y * 660, 200],
          radiusMm: 16,
          axis: null,
          thicknessMm: null,
        },
        {
          what: null,
          shape: 'slab',
          centreMm: [-60, y * 660, 330],
          radiusMm: 8,
          axis: [0, y, 0],
          thicknessMm: 12.0002,
        },
      ],
    });
    expect(file.unchecked).toEqual([
      { a: 'lowerArm', b: 'tieRod', why: expect.stringContaining('bolted'), coveredBy: ['bolt circle'] },
    ]);
  });

  it('findings.json counts the treatments', () => {
    expect(findings.treatments).toEqual({ everywhere: 3, outsideZones: 1, notChecked: 1 });
  });
});

describe('the listing of pairs by treatment', () => {
  const all: FixtureOptions = { zones: [BALL, BOLT], coveredBy: ['bolt circle', 'pilot in bore'] };
  const beyond = { mm: Number.POSITIVE_INFINITY, errorMm: 0 };
  /** Sensor and lower arm (joined), and sensor and battery, have nothing within the search limit. */
  const far: FixtureOptions = {
    ...all,
    measure: (pair) => (pair === 1 || pair === 2 ? beyond : { mm: 20, errorMm: 0.1 }),
  };

  it.each([
    ['mm', 'disc, 16.00 mm diameter, 12.01 mm thick'],
    ['in', 'disc, 0.630 in diameter, 0.473 in thick'],
  ] as const)('in the report has counts, zones in %s, reasons and covering checks', (unit, size) => {
    const input = reportInput({ ...all, unit });
    const section = reportMarkdown(input).split('## Treatment of each pair')[1].split('\n## ')[0];
    expect(section).toContain(
      '5 pairs: 3 measured everywhere, 1 measured outside zones of intended contact, 1 not checked.',
    );
    expect(section).toMatch(
      /\| Wheel speed sensor ↔ Lower arm \| ball in its seat \| sphere, .* \| at the lower joint; X /,
    );
    expect(section).toContain(`| Wheel speed sensor ↔ Lower arm | intended contact | ${size} | X −`);
    expect(section).toMatch(/\| Lower arm ↔ Tie rod \| .*bolted together \| bolt circle, pilot in bore \|/);
    expect(section).toContain('those that are in no list here are measured everywhere.');
    const html = reportHtml(input);
    for (const text of ['Treatment of each pair', size, 'bolt circle, pilot in bore'])
      expect(html).toContain(text);
  });

  it('on the command line has the same', () => {
    const text = treatmentText(reportInput(all), 'mm');
    expect(text).toContain(
      '  Wheel speed sensor ↔ Lower arm\n    ball in its seat: sphere, 32.00 mm diameter\n      at the lower joint; X +5.0',
    );
    expect(text).toMatch(
      /Lower arm ↔ Tie rod: .*\n {4}covered by these dimension checks: bolt circle, pilot in bore/,
    );
    expect(text).toMatch(/Measured everywhere, 3 pairs:\n {2}Tie rod ↔ Battery\n/);
  });

  it('calls no joined pair far in the table, its short form and the report', () => {
    const input = reportInput(far);
    const table = pairTable(input, 'mm', true);
    expect(table).toMatch(/^joined +Wheel speed sensor ↔ Lower arm +nothing else within 60 mm /m);
    expect(table).toMatch(/^far +Wheel speed sensor ↔ Battery +at least 60\.00 /m);
    const short = pairTable(input, 'mm', false);
    expect(short).toContain('And 1 far pair, at least 60.00 mm apart.');
    expect(short).toContain('1 pair is joined; nothing else within 60 mm.');
    const report = reportMarkdown(input);
    expect(report).toContain('1 pair is joined; nothing else within 60 mm at any step.');
    expect(report).toContain('| Wheel speed sensor | Lower arm (2.00) |');
    expect(report).not.toMatch(/Far from \|\n[^\n]*\n\| Wheel speed sensor \| [^|]*Lower arm/);
  });

  it('calls a step of the map far only if no joined pair moves', () => {
    const nothing: FixtureOptions = { measure: () => beyond };
    expect(reportMarkdown(reportInput(nothing))).toMatch(/\| \+60\.0 \| far \|/);
    const { result, ...input } = reportInput(nothing);
    const pairs = result.pairs.map((pair) => (pair.moves ? { ...pair, zones: [BALL] } : pair));
    const joined = reportMarkdown({ ...input, result: { ...result, pairs } });
    expect(joined).toMatch(/\| \+60\.0 \| joined; nothing else within 60 mm \|/);
    expect(joined).not.toMatch(/\| far \|/);
  });
});
