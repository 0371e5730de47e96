import type { Design } from '../../../src/design/design.ts';
import type { SweepSettings } from '../../../src/sweep/result.ts';
import { readDesign } from '../../design/readDesign.ts';
import { type DEMOS, demoSource } from '../../oracles/randomWholeCorner.ts';

const KINDS = ['wheel', 'hub', 'rotor', 'caliper', 'upright', 'tieRod', 'controlArm'];

/** Few steps and coarse meshes, for studies of many corners. */
export const COARSE: SweepSettings = { travelSteps: 5, steerSteps: 5, limitMm: 60, chordToleranceMm: 0.1 };

/** A demo corner with parts of some kinds only, and without its pair rules: its studies are shorter. */
export function fewParts(
  name: (typeof DEMOS)[number],
  changes: Record<string, unknown> = {},
  kinds = KINDS,
): Design {
  const { pairs: _, ...source } = demoSource(name) as { pairs: unknown; parts: { kind: string }[] };
  return readDesign({
    ...source,
    parts: source.parts.filter(({ kind }) => kinds.includes(kind)),
    ...changes,
  });
}
