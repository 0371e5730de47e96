import { describe, expect, it } from 'vitest';
import type { Design } from '../../../src/design/design.ts';
import { parseDesign } from '../../../src/design/parse.ts';
import { type AssemblyStudy, studyAssembly } from '../../../src/studies/assembly/assembly.ts';
import { clockedDesign } from '../../../src/studies/clocking/apply.ts';
import { reachAt } from '../../../src/studies/clocking/reach.ts';
import { entryOf, minimalCorner } from '../../design/fixtures.ts';

/** What is at the wheel of the bench corner, with bolts: those of the hub are turned with wrenches from anywhere. */
function designWithBolts(): Design {
  const source = minimalCorner();
  source.parts = source.parts.filter(({ kind }) =>
    ['wheel', 'tyre', 'hub', 'rotor', 'caliper', 'upright'].includes(kind),
  );
  source.pairs = [];
  entryOf(source, 'caliper').body.length = 90;
  source.parts.push(
    { id: 'hubBolts', kind: 'bolts', joins: 'hubMount', size: 'M12', tool: 'openWrench', toolDiameter: 36 },
    { id: 'caliperBolts', kind: 'bolts', joins: 'caliperMount', size: 'M12' },
    // 150 mm behind the hub's face, 107 mm below the wheel axis: across both of the caliper's bolts where it hangs there.
    { id: 'bar', kind: 'box', size: [200, 30, 30], centre: [0, 625, 263] },
    { id: 'nuts', kind: 'bolts', joins: 'wheel', size: 'M12' },
  );
  const parsed = parseDesign(JSON.stringify(source));
  if (parsed.kind === 'bad') throw new Error(JSON.stringify(parsed.problems));
  return parsed.design;
}

const told = ({ unreachable }: AssemblyStudy) =>
  unreachable.map(({ body, blocks, directions }) => [
    body.label,
    directions,
    blocks.map(({ solidId }) => solidId),
  ]);

describe('the bolts that can be reached at some clockings', () => {
  const design = designWithBolts();
  const clockings = [
    { caliperDeg: 90, hubDeg: 0 },
    { caliperDeg: 180, hubDeg: 45 },
  ];

  it('are those that the study of each corner alone finds, wrenches from anywhere and wheel nuts among them', async () => {
    const done: number[] = [];
    const reach = await reachAt(clockings, () => design, { onProgress: (count) => done.push(count) });
    expect(reach.map(({ candidate }) => candidate)).toEqual(clockings);
    expect(done).toEqual([1, 2]);
    for (const { candidate, ...study } of reach) {
      const alone = await studyAssembly(clockedDesign(design, candidate).corner);
      expect(told(study), JSON.stringify(candidate)).toEqual(told(alone));
      expect(study.order, JSON.stringify(candidate)).toEqual(alone.order);
    }
    // Straight below a bar crosses what drives the socket; ahead of the axle there is none.
    const ofCaliper = ({ unreachable }: AssemblyStudy) =>
      unreachable.filter(({ body }) => body.boltsId === 'caliperBolts');
    expect(ofCaliper(reach[0])).toEqual([]);
    expect(ofCaliper(reach[1]).map(({ blocks }) => blocks.map(({ solidId }) => solidId))).toEqual([
      ['bar'],
      ['bar'],
    ]);
  }, 120_000);

  it('are not looked for any further once that is cancelled', async () => {
    const stop = new AbortController();
    const reach = reachAt(clockings, () => design, {
      signal: stop.signal,
      onProgress: () => stop.abort(new Error('enough')),
    });
    await expect(reach).rejects.toThrow('enough');
  });
});
