import { describe, expect, it } from 'vitest';
import { boltsCell, boltsInWords, candidateReachLines } from '../../src/report/clocking/reachWords.ts';
import type { AssemblyStudy, UnreachableWay } from '../../src/studies/assembly/assembly.ts';
import type { Precedence } from '../../src/studies/assembly/order.ts';
import { benchCorner, boltsOf } from '../solids/benchCorner.ts';

const corner = benchCorner();
corner.parts.push(boltsOf({ id: 'ears', label: 'Ear bolts', joins: 'caliperMount' }));

/** A tool on an ear bolt with a part in its way. */
function blocked(index: number, partId: string, cycle?: readonly Precedence[]): UnreachableWay {
  const body = { boltsId: 'ears', index, stage: 'tool', label: `Ear bolts ${index + 1}, socket on its head` };
  const proposed = cycle === undefined ? { kind: 'reached', handleDeg: undefined } : { kind: 'never', cycle };
  const block = { solidId: partId, partId, label: partId, clearanceMm: 0, errorMm: 0.1 };
  return { body, blocks: [block], directions: 1, others: [], proposed } as unknown as UnreachableWay;
}

const study = (given: Partial<AssemblyStudy>): AssemblyStudy => ({
  steps: [],
  contradictions: [],
  unreachable: [],
  order: { steps: [], changes: [] },
  underBody: [],
  ...given,
});

const NEVER: readonly Precedence[] = [
  {
    earlier: 'ears',
    later: 'upright',
    strict: true,
    why: 'upright is in the way of Ear bolts 2, socket on its head',
  },
  { earlier: 'upright', later: 'ears', strict: false, why: 'Ear bolts hold upright' },
];

describe('the bolts of candidates as text', () => {
  const some = study({ unreachable: [blocked(0, 'upperArm'), blocked(1, 'upright', NEVER)] });

  it('counts bolts, not their blocked ends and stages', () => {
    expect(boltsCell(study({}))).toBe('all reached');
    expect(boltsCell(study({ underBody: ['ears'] }))).toBe('reached or unknown');
    expect(boltsCell(some)).toBe('2 not reached');
    expect(boltsCell(study({ unreachable: [blocked(1, 'upperArm'), blocked(1, 'upright')] }))).toBe(
      '1 not reached',
    );
  });

  it('calls a part unknown if the error leaves open whether it is in the way', () => {
    const way = blocked(0, 'upperArm');
    const open = study({ unreachable: [{ ...way, blocks: [{ ...way.blocks[0], clearanceMm: 0.05 }] }] });
    expect(boltsCell(open)).toBe('1 unknown');
    expect(boltsInWords(open, corner)).toEqual([
      'bolts: 1 unknown',
      'Ear bolts 1: unknown whether upperArm is in the way',
    ]);
  });

  it('names each set with the parts in its way', () => {
    expect(boltsInWords(some, corner)).toEqual([
      'bolts: 2 not reached',
      'Ear bolts 1, 2: upperArm, upright in the way, in any order',
    ]);
  });

  it('lists once what all candidates share, and for each how to free its bolts', () => {
    const other = study({ unreachable: [blocked(0, 'upperArm')] });
    expect(candidateReachLines([some, other], corner)).toEqual([
      'Bolts that cannot be reached in the steps of assembly, at ride height:',
      '  at every candidate:',
      '    Ear bolts 1, socket on its head: upperArm in the way; to reach it: fit upperArm after Ear bolts',
      '  1:',
      '    Ear bolts 2, socket on its head: upright in the way; in no order: upright cannot be fitted after Ear bolts, because Ear bolts hold upright',
    ]);
    expect(candidateReachLines([study({})], corner)).toEqual([]);
    expect(candidateReachLines([study({ underBody: ['ears'] })], corner)).toEqual([
      'Unknown: whether the caliper leaves room for Ear bolts. Its body, as entered, covers them.',
    ]);
  });
});
