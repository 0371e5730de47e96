import { describe, expect, it } from 'vitest';
import { auditJson } from '../../../src/report/audit/auditJson.ts';
import { type AuditReport, auditLines } from '../../../src/report/audit/auditText.ts';
import { figuresIn } from '../../../src/report/figures.ts';
import type { Solid } from '../../../src/solids/solid.ts';
import type { AuditedPair, Unexplained } from '../../../src/studies/audit/audit.ts';
import { benchCorner } from '../../solids/benchCorner.ts';

const solids = ['Upright', 'Caliper', 'Tie rod'].map((label) => ({ id: label, label }) as Solid);
const found = (given: Partial<Unexplained>): Unexplained => ({
  at: { kind: 'fit' },
  volumeMm3: 32,
  errorMm3: 1.5,
  middle: [10, 700, 200],
  extentMm: [2, 14, 3],
  engine: 'beyond',
  hidden: true,
  ...given,
});
const pair = (given: Partial<AuditedPair>): AuditedPair => ({
  a: 0,
  b: 1,
  treatment: { kind: 'outsideZones', zones: 2 },
  sharedMm3: 40,
  explained: [{ what: 'bolts in their holes', volumeMm3: 8 }],
  enlargedByMm: 0.2,
  unexplained: undefined,
  ...given,
});
const reportOf = (pairs: AuditedPair[], side: 'left' | 'right' = 'left'): AuditReport => ({
  corner: { ...benchCorner(), side },
  solids,
  audit: { pairs, poses: 25, unreachable: 0, clockings: 71 },
});
const text = (pairs: AuditedPair[], side?: 'left' | 'right') =>
  auditLines(reportOf(pairs, side), figuresIn('mm')).join('\n');

describe('the audit as text', () => {
  it('lists treatment, shared and unexplained volume, explanation and place of each pair', () => {
    const lines = text([pair({ unexplained: found({}) })]);
    expect(lines).toContain(
      '1 pair with zones of intended contact or not checked, audited at 25 poses and 71 further clockings.',
    );
    expect(lines).toMatch(/Upright ↔ Caliper +40\.0 +32\.0 {2}any pose/);
    expect(lines).toContain('measured outside 2 zones');
    expect(lines).toContain('explained: bolts in their holes 8.0');
    expect(lines).toContain(
      'hidden: the sweep measures the pair and finds it clear there; volume within 1.5 mm³ of the true one',
    );
    expect(lines).toContain(
      'largest piece: 2.0 × 14.0 × 3.0 mm about x 10.0, y 700.0, z 200.0, vehicle axes',
    );
    expect(lines).toContain('enlarged by both chord errors, 0.20 mm.');
    expect(lines).toMatch(/1 pair with hidden contact\.$/);
  });

  it('lists hidden contact first, then reported contact, then explained volume', () => {
    const lines = text([
      pair({ sharedMm3: 9e5 }),
      pair({ b: 2, unexplained: found({ hidden: false, engine: 'overlapping', volumeMm3: 5000 }) }),
      pair({
        a: 1,
        b: 2,
        unexplained: found({ engine: undefined }),
        treatment: { kind: 'notChecked', why: 'so' },
      }),
    ]);
    const at = ['Caliper ↔ Tie rod', 'Upright ↔ Tie rod', 'Upright ↔ Caliper'].map((name) =>
      lines.indexOf(name),
    );
    expect(at).toEqual(at.toSorted((a, b) => a - b));
    expect(lines).toContain('not checked: so');
    expect(lines).toContain('hidden: the pair is not checked');
    expect(lines).toContain('not hidden: the sweep measures the pair and finds it touching there');
    expect(lines).toContain('1 pair with hidden contact. 1 pair with contact that a sweep reports as well.');
  });

  it('counts pairs that share no volume, and reports that all volume is explained', () => {
    const lines = text([pair({}), pair({ b: 2, sharedMm3: 0, explained: [] })]);
    expect(lines).toContain('1 pair shares less than 0.1 mm³.');
    expect(lines).toMatch(/Intended contact explains all shared volume\.$/);
  });

  it('shows poses and clockings, and a right corner mirrored', () => {
    const at = { kind: 'pose', travelMm: -60, steer: 1 } as const;
    const lines = text([pair({ unexplained: found({ at }) })], 'right');
    expect(lines).toContain('droop −60.0 mm, rack −45.0 mm (front edge outboard)');
    expect(lines).toContain('about x 10.0, y −700.0, z 200.0');
    const clocking = { kind: 'clocking', caliperDeg: -100, hubDeg: 45 } as const;
    expect(text([pair({ unexplained: found({ at: clocking }) })])).toContain('caliper −100.0°, hub +45.0°');
  });
});

describe('the audit as JSON', () => {
  it('contains every pair with its ids, and null if all volume is explained', () => {
    const json = JSON.parse(
      auditJson(reportOf([pair({ unexplained: found({}) }), pair({ b: 2 })]), 'abc', '1.0'),
    );
    expect(json).toMatchObject({ format: 'daylight.audit', designHash: 'abc', poses: 25, clockings: 71 });
    expect(json.pairs[0]).toMatchObject({
      between: ['Upright', 'Caliper'],
      treatment: { kind: 'outsideZones', zones: 2 },
      sharedMm3: 40,
      unexplained: { hidden: true, engine: 'beyond', volumeMm3: 32, middle: [10, 700, 200] },
    });
    expect(json.pairs[1].unexplained).toBeNull();
  });

  it('is mirrored for a right corner', () => {
    const at = { kind: 'pose', travelMm: -60, steer: 1 } as const;
    const json = JSON.parse(
      auditJson(reportOf([pair({ unexplained: found({ at }) })], 'right'), 'abc', '1.0'),
    );
    expect(json.pairs[0].unexplained).toMatchObject({ at: { steer: -1 }, middle: [10, -700, 200] });
  });
});
