import { describe, expect, it } from 'vitest';
import type { Design } from '../../../src/design/design.ts';
import { type AssemblyStudy, studyAssembly } from '../../../src/studies/assembly/assembly.ts';
import { clockedDesign } from '../../../src/studies/clocking/apply.ts';
import { reachAt } from '../../../src/studies/clocking/reach.ts';
import { entryOf, minimalCorner } from '../../design/fixtures.ts';
import { readDesign } from '../../design/readDesign.ts';

/** The parts at the wheel of the bench corner, with bolts; those of the hub are turned with wrenches from any side. */
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
    // 150 mm behind the hub's face and 107 mm below the wheel axis: across both caliper bolts at the lowest clocking.
    { id: 'bar', kind: 'box', size: [200, 30, 30], centre: [0, 625, 263] },
    { id: 'nuts', kind: 'bolts', joins: 'wheel', size: 'M12' },
  );
  return readDesign(source);
}

const blockLines = ({ unreachable }: AssemblyStudy) =>
  unreachable.map(({ body, blocks, directions }) => [
    body.label,
    directions,
    blocks.map(({ solidId }) => solidId),
  ]);

describe('bolt access at some clockings', () => {
  const design = designWithBolts();
  const clockings = [
    { caliperDeg: 90, hubDeg: 0 },
    { caliperDeg: 180, hubDeg: 45 },
  ];

  it('is the same as in a separate study of each corner, for wrenches from any side and wheel nuts too', async () => {
    const done: number[] = [];
    const reach = await reachAt(clockings, () => design, { onProgress: (count) => done.push(count) });
    expect(reach.map(({ candidate }) => candidate)).toEqual(clockings);
    expect(done).toEqual([1, 2]);
    for (const { candidate, ...study } of reach) {
      const alone = await studyAssembly(clockedDesign(design, candidate).corner);
      expect(blockLines(study), JSON.stringify(candidate)).toEqual(blockLines(alone));
      expect(study.order, JSON.stringify(candidate)).toEqual(alone.order);
    }
    // At the lowest clocking a bar blocks the socket's drive; ahead of the axle nothing does.
    const ofCaliper = ({ unreachable }: AssemblyStudy) =>
      unreachable.filter(({ body }) => body.boltsId === 'caliperBolts');
    expect(ofCaliper(reach[0])).toEqual([]);
    expect(ofCaliper(reach[1]).map(({ blocks }) => blocks.map(({ solidId }) => solidId))).toEqual([
      ['bar'],
      ['bar'],
    ]);
  }, 120_000);

  it('is not checked further after a cancellation', async () => {
    const stop = new AbortController();
    const reach = reachAt(clockings, () => design, {
      signal: stop.signal,
      onProgress: () => stop.abort(new Error('enough')),
    });
    await expect(reach).rejects.toThrow('enough');
  });
});
