import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { remedyJson } from '../../../src/report/remedy/remedyJson.ts';
import { FEWER_STEPS } from '../../../src/studies/fewerSteps.ts';
import { withRemedy } from '../../../src/studies/remedy/changedFile.ts';
import { remediesOf } from '../../../src/studies/remedy/remedy.ts';
import { sweepAndProveHere } from '../../../src/studies/vary/measurePairs.ts';
import { buildCorner, withBodies } from '../../../src/sweep/setUp.ts';
import { readDesign } from '../../design/readDesign.ts';

/**
 * The demo with the wheel that touches the tie-rod end. The points of the arms and most made parts are fixed: they do not
 * change this pair, and each of them takes time.
 */
function demo() {
  const source = JSON.parse(
    readFileSync(new URL('../../../demo-data/gravelbeck.corner.json', import.meta.url), 'utf8'),
  );
  const armPoints = Object.keys(source.suspension.hardpoints).filter((name) => /Arm|Joint/.test(name));
  source.suspension.fixed = ['damper', ...armPoints.map((name) => `hardpoints.${name}`)];
  for (const part of source.parts)
    if (['upright', 'controlArm', 'box', 'tube'].includes(part.kind)) part.fixed = true;
  return readDesign(source);
}

it('finds four single changes or more, each of which clears when swept at twice the steps', async () => {
  const design = demo();
  const settings = { ...FEWER_STEPS, limitMm: 60, chordToleranceMm: 0.05 };
  const study = await remediesOf(design, { settings, between: ['wheel', 'tieRodEnd'] });
  const { hits } = study;
  const [{ before, remedies }] = hits;
  expect(before.state).toBe('touches');
  const names = remedies.map(({ changes }) => changes.map(({ choices }) => choices.input.field.name).join());
  expect(new Set(names).size).toBeGreaterThanOrEqual(4);
  expect(names).toContain('wheel.backspacing');
  for (const { changes, after, failing } of remedies) {
    expect([changes.length, failing]).toEqual([1, []]);
    // Only the pair in hand: the sweep and proof of all 240 pairs of each change would take minutes.
    const built = await buildCorner(readDesign(withRemedy(design, changes)), {
      ...settings,
      travelSteps: 2 * FEWER_STEPS.travelSteps,
      steerSteps: 2 * FEWER_STEPS.steerSteps,
    });
    const pair = built.pairs.filter(
      ({ a, b }) => built.solids[a].id === after.a && built.solids[b].id === after.b,
    );
    const { findings } = await sweepAndProveHere(withBodies({ ...built, pairs: pair, unchecked: [] }), []);
    expect([changes[0].choices.input.field.name, findings.pairs[0].state]).toEqual([
      changes[0].choices.input.field.name,
      'clear',
    ]);
  }
  // The poses of a changed corner are those of its own lock.
  const written: { changes: { value: string; to: number }[]; pair: { worst: { rackMm: number } } }[] =
    JSON.parse(remedyJson(study, '0')).hits[0].remedies;
  const lock = written.find(({ changes }) => changes[0].value === 'suspension.steering.rackOutboard');
  expect(lock?.pair.worst.rackMm).toBe(lock?.changes[0].to);
});
