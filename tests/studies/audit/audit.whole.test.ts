import { describe, expect, it } from 'vitest';
import { auditCorner } from '../../../src/studies/audit/audit.ts';
import type { AuditOptions } from '../../../src/studies/audit/auditRequest.ts';
import { setUp } from '../../../src/sweep/setUp.ts';
import { type CornerInput, minimalCorner } from '../../design/fixtures.ts';
import { readDesign } from '../../design/readDesign.ts';

const SETTINGS = { travelSteps: 3, steerSteps: 3, limitMm: 60, chordToleranceMm: 0.2 };
/** Diameter of the tie rod's tube; middle and thickness along it of the block in its way, mm. */
const TUBE_MM = 22;
const BLOCK_Y_MM = 370;
const BLOCK_MM = 10;
/** Displacement of the rack at full steer, outboard when it steers to the left, mm. */
const RACK_MM = 45;

type Rule = NonNullable<CornerInput['pairs']>[number];

/**
 * The bench corner with a block on the rack that the tie rod goes through near its inner end, and an entry for the
 * pair.
 */
function blocked(rule: Omit<Rule, 'between'>) {
  const corner = minimalCorner();
  corner.parts = corner.parts.filter(({ kind }) => ['tieRod', 'joint', 'controlArm'].includes(kind));
  corner.parts.push({
    id: 'block',
    kind: 'box',
    carrier: 'rack',
    centre: [120, BLOCK_Y_MM, 300],
    size: [200, BLOCK_MM, 200],
  });
  corner.pairs = [{ between: ['tieRod', 'block'], ...rule }];
  return corner;
}

async function audited(source: CornerInput, options: AuditOptions = {}) {
  const design = readDesign(source);
  const setup = await setUp(design, SETTINGS);
  const audit = await auditCorner(setup, options);
  const between = (one: string, other: string) =>
    audit.pairs.find(({ a, b }) => {
      const ids = [setup.solids[a].id, setup.solids[b].id];
      return ids.includes(one) && ids.includes(other);
    });
  return { audit, between };
}

/** Zones about the pivot of rod and block, one that covers the block and one that does not reach it. */
const AROUND: Rule['zone'] = { shape: 'sphere', centre: [120, 316, 300], radius: 70 };
const SHORT: Rule['zone'] = { shape: 'sphere', centre: [120, 316, 300], radius: 30 };

describe('the audit of a corner', () => {
  it('finds contact hidden by a zone, with its volume, pose and position', async () => {
    const { audit, between } = await audited(blocked({ zone: AROUND }));
    expect(audit.poses).toBe(9);
    const pair = between('tieRod', 'block');
    expect(pair?.treatment).toEqual({ kind: 'outsideZones', zones: 1 });
    const found = pair?.unexplained;
    expect(found).toMatchObject({ hidden: true, at: { kind: 'pose' } });
    // Nearly perpendicular to the rod.
    const exact = Math.PI * (TUBE_MM / 2) ** 2 * BLOCK_MM;
    expect(found?.volumeMm3).toBeGreaterThan(0.97 * exact);
    expect(found?.volumeMm3).toBeLessThan(1.1 * exact);
    const steer = found?.at.kind === 'pose' ? found.at.steer : Number.NaN;
    expect(found?.middle[1]).toBeCloseTo(BLOCK_Y_MM + steer * RACK_MM, 1);
    expect(found?.extentMm[1]).toBeCloseTo(BLOCK_MM, 1);
    expect(pair?.explained).toEqual([]);
  });

  it('finds contact of a pair that the file excludes', async () => {
    const { between } = await audited(blocked({ check: false, why: 'a slot is cut for it' }));
    expect(between('tieRod', 'block')).toMatchObject({
      treatment: { kind: 'notChecked', why: 'the file says so: a slot is cut for it' },
      unexplained: { hidden: true, engine: undefined },
    });
  });

  it('does not list contact as hidden if the engine reports it', async () => {
    const { between } = await audited(blocked({ zone: SHORT }));
    expect(between('tieRod', 'block')?.unexplained).toMatchObject({ hidden: false, engine: 'overlapping' });
  });

  it('skips pairs without zones', async () => {
    const { between } = await audited(blocked({ target: 4 }));
    expect(between('tieRod', 'block')).toBeUndefined();
  });

  it('finds contact hidden by a zone at a clocking that the study reports as clear', async () => {
    const corner = minimalCorner();
    corner.parts = corner.parts.filter(({ kind }) => ['wheel', 'hub', 'rotor', 'caliper'].includes(kind));
    // Below the axle, in the path of the caliper's inboard half; the block's inboard end is outside the zone.
    corner.parts.push({
      id: 'block',
      kind: 'box',
      carrier: 'upright',
      centre: [0, 695, 225],
      size: [40, 130, 30],
    });
    corner.pairs = [
      { between: ['caliper', 'block'], zone: { shape: 'sphere', centre: [0, 740, 225], radius: 62 } },
    ];
    const asDrawn = await audited(corner);
    expect(asDrawn.between('caliper', 'block')?.unexplained).toBeUndefined();
    expect(asDrawn.audit.clockings).toBe(0);
    const turned = await audited(corner, { clockingStepDeg: 30 });
    expect(turned.audit.clockings).toBe(11);
    const found = turned.between('caliper', 'block')?.unexplained;
    expect(found).toMatchObject({ hidden: true, at: { kind: 'clocking' } });
    expect(found?.volumeMm3).toBeGreaterThan(1000);
  });

  it('audits fit pairs once, and reports progress', async () => {
    const corner = minimalCorner();
    corner.parts = corner.parts.filter(({ kind }) => ['wheel', 'tyre'].includes(kind));
    corner.pairs = [];
    const done: [number, number][] = [];
    const { between } = await audited(corner, { onProgress: (k, total) => done.push([k, total]) });
    const pair = between('wheel', 'tyre');
    expect(pair?.explained.map(({ what }) => what)).toEqual(['bead on its rim']);
    expect(pair?.unexplained).toBeUndefined();
    expect(done).toEqual([[1, 1]]);
  });

  it('rejects when cancelled', async () => {
    const signal = AbortSignal.abort(new Error('enough'));
    await expect(audited(blocked({ zone: AROUND }), { signal })).rejects.toThrow('enough');
  });
});
