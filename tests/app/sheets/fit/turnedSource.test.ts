import { describe, expect, it } from 'vitest';
import { choiceFor } from '../../../../src/app/sheets/fit/fitStore.ts';
import { turnedSource } from '../../../../src/app/sheets/fit/turnedSource.ts';
import { wantsOf } from '../../../../src/app/sheets/fit/WantRows.tsx';
import { fitKey } from '../../../../src/app/workers/fit/fitFound.ts';
import { clockedSource, mountedDesign } from '../../../../src/studies/clocking/apply.ts';
import { drawnClockings } from '../../../../src/studies/clocking/studyPairs.ts';
import { minimalCorner } from '../../../design/fixtures.ts';
import { readDesign } from '../../../design/readDesign.ts';

const DRAWN = { caliperMirrored: false, headsTurned: false };
const MIRRORED = { caliperMirrored: true, headsTurned: false };
const TO = { caliperDeg: 30, hubDeg: 12 };

describe('a file turned to a candidate', () => {
  const design = readDesign(minimalCorner());
  const mirrored = mountedDesign(design, MIRRORED);

  it('has the mounting and the clocking of the candidate', () => {
    const turned = turnedSource(design.source, fitKey(mirrored), TO);
    expect(turned?.mounting).toEqual(MIRRORED);
    expect(turned?.source).toEqual(clockedSource(mirrored.source, drawnClockings(design), TO));
  });

  it('is not mirrored again if it already has the mounting, as during a drag', () => {
    const once = turnedSource(design.source, fitKey(mirrored), TO)?.source;
    const again = turnedSource(once, fitKey(mirrored), { ...TO, caliperDeg: 31 });
    expect(again?.mounting).toEqual(DRAWN);
    expect(again?.source).toEqual(
      clockedSource(mirrored.source, drawnClockings(design), { ...TO, caliperDeg: 31 }),
    );
  });

  it('keeps its study if the turn gives a clocking that was assumed', () => {
    const source = minimalCorner() as unknown as { parts: { kind: string; assumed?: string[] }[] };
    const parts = source.parts.map((part) =>
      part.kind === 'caliper' ? { ...part, assumed: [...(part.assumed ?? []), 'clockingDeg'] } : part,
    );
    const assumed = readDesign({ ...source, parts });
    const turned = turnedSource(assumed.source, fitKey(assumed), TO)?.source;
    expect(JSON.stringify(turned)).not.toContain('assumed');
    expect(fitKey(readDesign(turned))).toBe(fitKey(assumed));
  });

  it('keeps the previous choice until the corner has the new mounting', () => {
    const next = { key: fitKey(mirrored), choice: 'drawn' } as const;
    const fit = { choice: 'mirrored', next } as unknown as Parameters<typeof choiceFor>[0];
    expect(choiceFor(fit, fitKey(design))).toBe('mirrored');
    expect(choiceFor(fit, fitKey(mirrored))).toBe('drawn');
  });

  it('is undefined if the file is not valid or is another corner', () => {
    expect(turnedSource({ format: 'daylight.corner' }, fitKey(design), TO)).toBeUndefined();
    expect(turnedSource({ ...minimalCorner(), name: 'Another' }, fitKey(design), TO)).toBeUndefined();
  });
});

describe('the key of a study', () => {
  it('is the same for a turned corner and after mounting it there and back', () => {
    const design = readDesign(minimalCorner());
    const turned = readDesign(clockedSource(design.source, drawnClockings(design), TO));
    expect(fitKey(turned)).toBe(fitKey(design));
    const mirrored = mountedDesign(design, MIRRORED);
    expect(fitKey(mirrored)).not.toBe(fitKey(design));
    expect(fitKey(mountedDesign(mirrored, MIRRORED))).toBe(fitKey(design));
  });
});

describe('requirements', () => {
  it('that do not apply to a corner are left out', () => {
    const design = readDesign(minimalCorner());
    const wants = {
      bleedWithinDeg: 20,
      leastMarginMm: 1,
      unsplit: [
        { mount: 'caliper', plate: 'upperLeg' },
        { mount: 'caliper', plate: 'strake' },
      ] as const,
    };
    expect(wantsOf(design, wants)).toEqual({
      bleedWithinDeg: 20,
      leastMarginMm: 1,
      unsplit: [{ mount: 'caliper', plate: 'upperLeg' }],
    });
    const source = minimalCorner();
    for (const part of source.parts) if (part.kind === 'caliper') delete part.bleedScrew;
    expect(wantsOf(readDesign(source), wants).bleedWithinDeg).toBeUndefined();
  });
});
