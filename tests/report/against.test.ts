import { describe, expect, it } from 'vitest';
import { againstSections } from '../../src/report/against.ts';
import { readEarlierReport } from '../../src/report/earlierReport.ts';
import { figuresIn } from '../../src/report/figures.ts';
import { reportMarkdown } from '../../src/report/markdown.ts';
import { reportJson } from '../../src/report/reportJson.ts';
import { cornerSource } from './cornerSource.ts';
import { reportInput } from './fixture.ts';

/** Clearance of the first pair, mm; the others have 20. */
const withGap = (mm: number, tube = '1 1/4 in') => {
  const { parts } = cornerSource();
  return reportInput({
    source: cornerSource({
      parts: parts.map((part) => (part.id === 'lowerArm' ? { ...part, tubeDiameter: tube } : part)),
    }),
    measure: (pair) => ({ mm: pair === 0 ? mm : 20, errorMm: 0.1 }),
  });
};
const rowsOf = (earlier: ReturnType<typeof withGap>, now: ReturnType<typeof withGap>) => {
  const against = readEarlierReport(reportJson(earlier));
  const [section] = againstSections({ ...now, against }, figuresIn('mm'));
  return section.blocks.flatMap((block) =>
    block.kind === 'table'
      ? block.rows.map(({ cells }) => cells)
      : block.kind === 'text'
        ? [[block.text]]
        : [],
  );
};

describe('a report against an earlier one', () => {
  it('lists the inputs that differ, and what that did to each margin', () => {
    const rows = rowsOf(withGap(12), withGap(3.5, '1 1/2 in'));
    expect(rows).toContainEqual(['parts[0].tubeDiameter', '31.75 mm', '38.10 mm']);
    // The target is 5: the margin was 7.
    expect(rows).toContainEqual(['◣ tight', 'Tie rod ↔ Battery', 'clear', '7.00', '−1.50', '−8.50']);
    expect(rows.filter((cells) => cells.length === 6)).toHaveLength(1);
  });

  it('reports that nothing has changed, and the text is the same apart from the date', () => {
    const rows = rowsOf(withGap(12), withGap(12));
    expect(rows.slice(1)).toEqual([['No input has changed.'], ['No margin has changed.']]);
    expect(reportJson(withGap(12))).toBe(reportJson(withGap(12)));
  });

  it('lists a part that is no longer in the corner, and one that is new', () => {
    const earlier = readEarlierReport(reportJson(withGap(12)));
    const [pair, ...others] = earlier.findings.pairs;
    const renamed = { ...pair, a: 'gone', labels: ['Gone', pair.labels[1]] as [string, string] };
    const against = { ...earlier, findings: { ...earlier.findings, pairs: [renamed, ...others] } };
    const markdown = reportMarkdown({ ...withGap(12), against });
    expect(markdown).toMatch(/\| not in the corner \| Gone ↔ .* \|/);
    expect(markdown).toMatch(/\| not in the report \|/);
  });

  it.each([
    ['not json', /it is not JSON\. Give the report\.json/],
    ['{"format": "daylight.findings", "version": 3}', /^format: .*Give the report\.json/],
    [JSON.stringify({ format: 'daylight.report', version: 1, date: 'x', designHash: 'y' }), /^inputs: /],
  ])('rejects %s with the field and the remedy', (text, message) => {
    expect(() => readEarlierReport(text)).toThrow(message);
  });
});
