import { describe, expect, it } from 'vitest';
import { solvePose } from '../../../src/mechanism/solvePose.ts';
import { type AuditedPair, auditCorner, LEAST_CONTACT_MM3 } from '../../../src/studies/audit/audit.ts';
import { intendedBetween } from '../../../src/studies/audit/intended.ts';
import type { Setup } from '../../../src/sweep/setUp.ts';
import { cases } from '../../oracles/random.ts';
import { randomWholeCorner } from '../../oracles/randomWholeCorner.ts';
import { sharedBesideMm3 } from './besideIntended.ts';

const SETTINGS = { travelSteps: 3, steerSteps: 3, limitMm: 60, chordToleranceMm: 0.5 };
const CORNERS = cases(5, 50);
const BATCH = 5;

/**
 * The volume that a pair shares at its audited placement outside the known reach of zones. Only fit pairs have such
 * zones; otherwise it is the whole shared volume.
 */
async function besideMm3({ solids, design, mechanism }: Setup, pair: AuditedPair): Promise<number> {
  const { a, b, treatment, unexplained } = pair;
  if (!unexplained?.hidden) return 0;
  if (treatment.kind === 'notChecked' || unexplained.at.kind !== 'fit') return unexplained.volumeMm3;
  const pose = solvePose(mechanism, 0, 0);
  if (pose.kind !== 'solved') throw new Error(pose.reason);
  const intended = intendedBetween(design.corner, solids[a], solids[b]);
  return sharedBesideMm3([solids[a], solids[b]], intended, pose);
}

describe('the audit of random whole corners', () => {
  it.each(Array.from({ length: CORNERS / BATCH }, (_, batch) => batch * BATCH))(
    'finds no contact that the engine calls clear or that is not checked, seeds from %i on',
    async (first) => {
      const hidden: string[] = [];
      for (let seed = first; seed < first + BATCH; seed++) {
        const { setup, design } = await randomWholeCorner(seed, SETTINGS);
        const { pairs } = await auditCorner(setup);
        expect(pairs.length).toBeGreaterThan(10);
        for (const pair of pairs) {
          const mm3 = await besideMm3(setup, pair);
          if (mm3 <= LEAST_CONTACT_MM3) continue;
          const { at, middle, extentMm } = pair.unexplained!;
          hidden.push(
            `seed ${seed}, ${design.corner.name}: ${setup.solids[pair.a].id} and ${setup.solids[pair.b].id} share ` +
              `${mm3.toFixed(1)} mm^3 at ${JSON.stringify(at)}, ` +
              `${extentMm.map((mm) => mm.toFixed(1)).join(' x ')} mm ` +
              `about ${middle.map((mm) => mm.toFixed(1)).join(', ')}`,
          );
        }
      }
      expect(hidden).toEqual([]);
    },
  );
});
