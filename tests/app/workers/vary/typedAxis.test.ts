import { describe, expect, it } from 'vitest';
import { offeredOf } from '../../../../src/app/workers/vary/offered.ts';
import { NOTHING_TYPED, typedAxis } from '../../../../src/app/workers/vary/typedAxis.ts';
import type { Design } from '../../../../src/design/design.ts';
import { readDesign } from '../../../design/readDesign.ts';
import { demoText } from '../../coarse/setUpCoarse.ts';

function designOf(demo: string): Design {
  return readDesign(demoText(demo));
}
const gravelbeck = designOf('gravelbeck');
const larkrise = designOf('larkrise');

describe('what is offered to vary', () => {
  it('is of the parts that the corner has, a wheel placed as its file places it', () => {
    const names = (design: Design) => offeredOf({ design }, 'mm').map(({ name }) => name);
    expect(names(gravelbeck)).toEqual([
      'wheel.backspacing',
      'wheel.width',
      'wheel.diameterCode',
      'tyre.overallDiameter',
      'hub.clockingDeg',
      'rotor.diameter',
      'caliper.clockingDeg',
      'suspension.steering.rackOutboard',
      'suspension.steering.rackInboard',
      'suspension.travel.bump',
      'suspension.travel.droop',
      'tyres',
      'wheels',
    ]);
    expect(names(larkrise)).toContain('wheel.offset');
    expect(names(larkrise)).not.toContain('wheel.backspacing');
    const offset = offeredOf({ design: larkrise }, 'mm').find(({ name }) => name === 'wheel.offset');
    expect(offset).toMatchObject({ label: 'Wheel 15 × 7: offset', now: '20 mm', kind: 'length' });
  });
});

describe('typed values', () => {
  it('are read in the unit of the file', () => {
    const parsed = typedAxis(gravelbeck, 'wheel.backspacing', {
      ...NOTHING_TYPED,
      from: '5',
      to: '5 1/2',
      step: '6.35 mm',
    });
    if ('problems' in parsed) throw new Error(JSON.stringify(parsed.problems));
    expect(parsed.axis.values.map(({ label }) => label)).toEqual(['5 in', '5 1/4 in', '5 1/2 in']);
  });

  it.each([
    ['rotor.diameter', { from: '', to: '270', step: '0' }, ['from', 'step']],
    ['rotor.diameter', { from: 'ten', to: '270 ±1', step: '2' }, ['from', 'to']],
    ['rotor.diameter', { from: '280', to: '270', step: '2' }, ['to']],
    ['rotor.diameter', { from: '1', to: '270', step: '0.1' }, ['step']],
    ['caliper.clockingDeg', { from: '1 in', to: '90', step: '10°' }, ['from']],
    ['tyres', { list: ' \n# none' }, ['list']],
    ['wheels', { list: '15x7' }, ['list']],
  ])('%s: reports each wrong field of %j', (name, typed, where) => {
    const parsed = typedAxis(larkrise, name, { ...NOTHING_TYPED, ...typed });
    expect('problems' in parsed && Object.keys(parsed.problems).sort()).toEqual(where);
  });
});
