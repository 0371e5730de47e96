import { describe, expect, it } from 'vitest';
import { buildSolids } from '../../../src/solids/catalogue.ts';
import { fastenerBodies } from '../../../src/solids/fasteners/fastenerBodies.ts';
import { blockFinder } from '../../../src/studies/assembly/blocked.ts';
import { clockedSource } from '../../../src/studies/clocking/apply.ts';
import { bodiesOfFasteners, fastenerPairs } from '../../../src/studies/clocking/fastenerPairs.ts';
import { angleOf, drawnClockings } from '../../../src/studies/clocking/studyPairs.ts';
import { setUp } from '../../../src/sweep/setUp.ts';
import { minimalCorner } from '../../design/fixtures.ts';
import { readDesign } from '../../design/readDesign.ts';

const CHORD_MM = 0.1;
const SETTINGS = { travelSteps: 3, steerSteps: 3, limitMm: 60, chordToleranceMm: CHORD_MM };

describe('paths and tools of turning bolts', async () => {
  const corner = minimalCorner();
  corner.parts.push(
    { id: 'hubBolts', kind: 'bolts', joins: 'hubMount', size: 'M12', headSide: 'outboard', nut: true },
    { id: 'caliperBolts', kind: 'bolts', joins: 'caliperMount', size: 'M12', label: 'Caliper bolts' },
  );
  const design = readDesign(corner);
  const setup = await setUp(design, SETTINGS);
  const pairs = fastenerPairs(setup, await bodiesOfFasteners(setup));

  it('form a pair for each stage and end with each present part that turns relative to them', () => {
    const named = pairs.map(({ names, ids, about }) => `${names[0]} | ${ids[1]} | ${about}`);
    expect(named).toContain('tool on the heads, Caliper bolts | lowerArm | caliper');
    expect(named).toContain('way out of the heads, Caliper bolts | upright | caliper');
    expect(named).toContain('tool on the nuts, hubBolts | upright | hub');
    expect(named).toContain('tool on the heads, Caliper bolts | hubBolts | between');
    // The caliper is mounted after the hub, and the wheel after both. Round parts are the same at every turn.
    expect(named.some((name) => /hubBolts \| caliper/.test(name))).toBe(false);
    expect(named.some((name) => /\| wheel \|/.test(name))).toBe(false);
    expect(named).toContain('tool on the heads, hubBolts | hub | none');
    expect(named).toContain('tool on the heads, Caliper bolts | rotor | none');
    expect(named).toContain('tool on the heads, Caliper bolts | caliper | none');
    expect(named.some((name) => /\| (rotor|hub|hub\.housing) \| (?!none)/.test(name))).toBe(false);
  });

  it('are blocked at every turn by a flange over the heads', () => {
    const over = pairs.find(
      ({ ids, stage, about }) => ids.join() === 'hubBolts,hub' && stage === 'tool' && about === 'none',
    );
    expect(over?.pair.at(0).marginMm).toBeLessThan(-1);
  });

  it('are not clear at every turn if the measuring error leaves that open', async () => {
    // The sockets of the heads reach down to 41.9 mm from the wheel axis.
    const housing = readDesign({
      ...corner,
      parts: corner.parts.map((part) => (part.kind === 'hub' ? { ...part, housingDiameter: 83.7 } : part)),
    });
    const beside = await setUp(housing, SETTINGS);
    const found = fastenerPairs(beside, await bodiesOfFasteners(beside)).find(
      ({ ids, names }) => ids.join() === 'hubBolts,hub.housing' && names[0].startsWith('tool on the heads'),
    );
    const { marginMm = Number.NaN, errorMm } = found?.pair.at(0) ?? {};
    expect(Math.abs(marginMm - 0.05)).toBeLessThan(errorMm ?? 0);
    expect(found?.pair.estimate(0).state).toBe('unsettled');
  });

  it.each([
    [90, 0],
    [-40, 20],
    [30, 77],
    [150, 45],
    [-150, 10],
    [180, 60],
  ])(
    'are free or blocked as the assembly study finds them, built anew: caliper %i, hub %i',
    async (caliperDeg, hubDeg) => {
      const { corner: clocked } = readDesign(
        clockedSource(design.source, drawnClockings(design), { caliperDeg, hubDeg }),
      );
      const solids = await buildSolids(clocked, CHORD_MM);
      const bodies = await fastenerBodies(clocked, CHORD_MM);
      const ways = blockFinder(clocked, solids)(
        bodies.filter(({ stage }) => stage !== 'seated'),
        bodies.filter(({ stage }) => stage === 'seated'),
      );
      for (const { ids, names, stage, about, pair } of pairs) {
        const end = names[0].includes('nuts') ? 'nut' : 'head';
        const blocks = ways
          .filter(({ body }) => body.boltsId === ids[0] && body.stage === stage && body.end === end)
          .flatMap((way) => way.blocks.filter(({ solidId }) => solidId === ids[1]));
        const deg = angleOf(about, { caliperDeg, hubDeg });
        // A measured angle has bounds of the margin itself, not only of its sign.
        const { marginMm } = pair.at(deg);
        const { lowerMm, upperMm } = pair.bounds(deg, 0);
        // Within the error of both, either result is correct.
        if (lowerMm > 0.3) expect(`${names}: ${blocks.length}`).toBe(`${names}: 0`);
        if (upperMm < -0.3) expect(`${names}: ${blocks.length > 0}`).toBe(`${names}: true`);
        expect(marginMm < 0).toBe(marginMm !== Number.POSITIVE_INFINITY);
      }
    },
  );

  it('are blocked in some cases', () => {
    const blocked = pairs.filter(({ pair }) =>
      [-150, -90, -40, 0, 30, 90, 150].some((deg) => pair.at(deg).marginMm < 0),
    );
    expect(blocked.length).toBeGreaterThan(2);
  });
});
