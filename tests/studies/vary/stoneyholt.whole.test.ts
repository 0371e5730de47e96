import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { rangeAxis } from '../../../src/studies/vary/rangeAxis.ts';
import { variedField } from '../../../src/studies/vary/variedField.ts';
import { varyCorner } from '../../../src/studies/vary/vary.ts';
import { readDesign } from '../../design/readDesign.ts';

const FILE = new URL('../../../demo-data/stoneyholt.corner.json', import.meta.url);
const SETTINGS = { travelSteps: 5, steerSteps: 3, limitMm: 30, chordToleranceMm: 0.1 };

it('the trials special fits after turning both caliper and hub, but not after turning one of them', async () => {
  const source = JSON.parse(readFileSync(FILE, 'utf8'));
  const turned = (name: string, from: number, to: number) =>
    rangeAxis(variedField(source, name), { from, to, step: to - from }, 'mm');
  const axes = [turned('caliper.clockingDeg', 48, 95), turned('hub.clockingDeg', 0, 45)];
  const { cells } = await varyCorner(readDesign(source), axes, { settings: SETTINGS });
  expect(cells.map(({ tried }) => tried.verdict)).toEqual(['fails', 'fails', 'fails', 'fits']);
  const touching = cells.map(({ tried }) =>
    tried.pairs.filter(({ state }) => state === 'touches').map(({ a, b }) => `${a} ${b}`),
  );
  const ofCaliper = [
    'upperArm caliperBolts',
    'upperJoint caliperBolts',
    'upperJoint.bolt caliperBolts',
    'caliper upright',
  ];
  expect(new Set(touching[0])).toEqual(new Set(['upright hubBolts', ...ofCaliper]));
  expect(new Set(touching[1])).toEqual(new Set(ofCaliper));
  expect(touching[2]).toEqual(['upright hubBolts']);
});
