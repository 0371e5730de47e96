import { describe, expect, it } from 'vitest';
import { fitKey } from '../../../src/app/fit/fitFound.ts';
import { choiceFor } from '../../../src/app/fit/fitStore.ts';
import { turnedSource } from '../../../src/app/fit/turnedSource.ts';
import { wantsOf } from '../../../src/app/fit/WantRows.tsx';
import type { Design } from '../../../src/design/design.ts';
import { parseDesign } from '../../../src/design/parse.ts';
import { clockedSource, mountedDesign } from '../../../src/studies/clocking/apply.ts';
import { drawnClockings } from '../../../src/studies/clocking/studyPairs.ts';
import { minimalCorner } from '../../design/fixtures.ts';

function designOf(source: unknown): Design {
  const parsed = parseDesign(JSON.stringify(source));
  if (parsed.kind === 'bad') throw new Error(JSON.stringify(parsed.problems));
  return parsed.design;
}

const DRAWN = { caliperMirrored: false, headsTurned: false };
const MIRRORED = { caliperMirrored: true, headsTurned: false };
const TO = { caliperDeg: 30, hubDeg: 12 };

describe('a file turned to a candidate', () => {
  const design = designOf(minimalCorner());
  const mirrored = mountedDesign(design, MIRRORED);

  it('is mounted as the candidate is, and turned', () => {
    const turned = turnedSource(design.source, fitKey(mirrored), TO);
    expect(turned?.mounting).toEqual(MIRRORED);
    expect(turned?.source).toEqual(clockedSource(mirrored.source, drawnClockings(design), TO));
  });

  it('is not mirrored once more where it is mounted so by now, as while it is dragged', () => {
    const once = turnedSource(design.source, fitKey(mirrored), TO)?.source;
    const again = turnedSource(once, fitKey(mirrored), { ...TO, caliperDeg: 31 });
    expect(again?.mounting).toEqual(DRAWN);
    expect(again?.source).toEqual(
      clockedSource(mirrored.source, drawnClockings(design), { ...TO, caliperDeg: 31 }),
    );
  });

  it('keeps its study where a clocking that nobody has given is given by the turn', () => {
    const source = minimalCorner() as unknown as { parts: { kind: string; assumed?: string[] }[] };
    const parts = source.parts.map((part) =>
      part.kind === 'caliper' ? { ...part, assumed: [...(part.assumed ?? []), 'clockingDeg'] } : part,
    );
    const assumed = designOf({ ...source, parts });
    const turned = turnedSource(assumed.source, fitKey(assumed), TO)?.source;
    expect(JSON.stringify(turned)).not.toContain('assumed');
    expect(fitKey(designOf(turned))).toBe(fitKey(assumed));
  });

  it('keeps the choice of before until the corner in hand is mounted so', () => {
    const next = { key: fitKey(mirrored), choice: 'drawn' } as const;
    const fit = { choice: 'mirrored', next } as unknown as Parameters<typeof choiceFor>[0];
    expect(choiceFor(fit, fitKey(design))).toBe('mirrored');
    expect(choiceFor(fit, fitKey(mirrored))).toBe('drawn');
  });

  it('is left alone where it is not sound, or is another corner by now', () => {
    expect(turnedSource({ format: 'daylight.corner' }, fitKey(design), TO)).toBeUndefined();
    expect(turnedSource({ ...minimalCorner(), name: 'Another' }, fitKey(design), TO)).toBeUndefined();
  });
});

describe('what a study hangs on', () => {
  it('is the same of a corner that is turned, and mounted there and back', () => {
    const design = designOf(minimalCorner());
    const turned = designOf(clockedSource(design.source, drawnClockings(design), TO));
    expect(fitKey(turned)).toBe(fitKey(design));
    const mirrored = mountedDesign(design, MIRRORED);
    expect(fitKey(mirrored)).not.toBe(fitKey(design));
    expect(fitKey(mountedDesign(mirrored, MIRRORED))).toBe(fitKey(design));
  });
});

describe('wants', () => {
  it('that a corner cannot have are left out', () => {
    const design = designOf(minimalCorner());
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
    expect(wantsOf(designOf(source), wants).bleedWithinDeg).toBeUndefined();
  });
});
