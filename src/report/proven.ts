import type { PairFinding } from '../findings/findings.ts';
import type { Figures } from './figures.ts';
import type { Checked } from './reportInput.ts';

/** The largest of the values that are known. */
export const largest = (values: Float64Array): number =>
  values.reduce((most, value) => (Number.isNaN(value) ? most : Math.max(most, value)), 0);

/**
 * No pose that is reached, at a step or between steps, brings the true parts of a pair nearer than this, mm: the proved
 * bound with all errors taken off. Undefined where nothing is proved.
 */
export function provenAtLeastMm(
  { solids, result }: Pick<Checked, 'solids' | 'result'>,
  { pair, worst, provenMm }: PairFinding,
): number | undefined {
  if (provenMm === undefined) return undefined;
  if (worst !== undefined) return provenMm - worst.errorMm;
  const { a, b } = result.pairs[pair];
  // Zones only ever leave too much of a surface: how closely they are cut takes nothing off a lower bound.
  return provenMm - solids[a].chordErrorMm - solids[b].chordErrorMm - 2 * largest(result.residualMm);
}

/** The same in words, without a unit; empty without a proof, a dash where the pair touches and there is none to give. */
export function nowhereBelowInWords(checked: Checked, finding: PairFinding, figures: Figures): string {
  const { result, findings } = checked;
  if (findings.lockedOut === undefined) return '';
  const leastMm = provenAtLeastMm(checked, finding);
  if (leastMm !== undefined) return figures.least(leastMm);
  if (finding.state === 'touches') return '–';
  const farFit = finding.state === 'far' && !result.pairs[finding.pair].moves;
  return farFit ? figures.least(result.settings.limitMm) : 'not proven';
}

/**
 * The far pairs' least distance above target and allowances that is proved between the steps, mm; undefined where one of
 * them has no proof. Pairs that keep their distance need none.
 */
export function farSpareMm(
  checked: Pick<Checked, 'solids' | 'result'>,
  far: readonly PairFinding[],
): number | undefined {
  let least = Number.POSITIVE_INFINITY;
  for (const finding of far) {
    const { moves, targetMm, allowanceMm } = checked.result.pairs[finding.pair];
    if (!moves) continue;
    const provenMm = provenAtLeastMm(checked, finding);
    if (provenMm === undefined) return undefined;
    least = Math.min(least, provenMm - targetMm - allowanceMm);
  }
  return Number.isFinite(least) ? least : undefined;
}

/** What is proved of far pairs, a sentence; empty where nothing is. */
export function farProvenInWords(
  checked: Pick<Checked, 'solids' | 'result'>,
  far: readonly PairFinding[],
  figures: Figures,
): string {
  const spareMm = farSpareMm(checked, far);
  return spareMm === undefined
    ? ''
    : `Between the steps, each that moves keeps at least ${figures.least(spareMm)} ${figures.unit} more than its target and allowances.`;
}
