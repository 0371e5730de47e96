import type { PairFinding } from '../findings/findings.ts';
import type { Figures } from './figures.ts';
import type { Checked } from './reportInput.ts';

/** The largest value that is not NaN, at least 0. */
export const largest = (values: Float64Array): number =>
  values.reduce((most, value) => (Number.isNaN(value) ? most : Math.max(most, value)), 0);

/**
 * Proven lower bound on the clearance of the true parts of a pair at every pose that is reached, at a step or between
 * steps, mm; all errors are subtracted. Undefined if nothing is proven.
 */
export function provenAtLeastMm(
  { solids, result }: Pick<Checked, 'solids' | 'result'>,
  { pair, worst, provenMm }: PairFinding,
): number | undefined {
  if (provenMm === undefined) return undefined;
  if (worst !== undefined) return provenMm - worst.errorMm;
  const { a, b } = result.pairs[pair];
  // Cutting the zones leaves too much of a surface, never too little: it does not reduce a lower bound.
  return provenMm - solids[a].chordErrorMm - solids[b].chordErrorMm - 2 * largest(result.residualMm);
}

/** `provenAtLeastMm` as text without a unit; empty without a proof, a dash if the pair touches. */
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
 * Proven lower bound between the steps on the far pairs' clearance less target and allowances, mm; undefined if a pair has
 * no proof. Pairs that do not move relative to each other need none.
 */
function farSpareMm(
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

/** Sentence with `farSpareMm`; empty if that is undefined. */
export function farProvenInWords(
  checked: Pick<Checked, 'solids' | 'result'>,
  far: readonly PairFinding[],
  figures: Figures,
): string {
  const spareMm = farSpareMm(checked, far);
  return spareMm === undefined
    ? ''
    : `Between the steps, each pair that moves keeps at least ${figures.least(spareMm)} ${figures.unit} more than its target and allowances.`;
}
