import { parseDesign } from '../../design/parse.ts';
import type { Findings, PairState, TightSpot } from '../../findings/findings.ts';
import { pairId } from '../../sweep/pair.ts';
import { type Built, buildCorner, type Setup, type SetupMemory, withBodies } from '../../sweep/setUp.ts';
import { DesignProblems, type Problem } from '../../units/problem.ts';
import { measureFitPairs, type SweepAndProve } from '../vary/measurePairs.ts';
import { typedAmount } from '../vary/typedAmount.ts';
import { withAmount, withoutMeasuredTo } from '../vary/variedField.ts';
import type { ErrorTerm } from './errorTerms.ts';

/** The result of a pair in the corner that has every value at its adverse end. */
export type Verified =
  | { kind: 'measured'; state: PairState; worst: TightSpot }
  | { kind: 'notBuilt'; problems: readonly Problem[] }
  | { kind: 'unknown'; why: string };

/** Limits of joints and dampers are not clearances. */
const NO_LIMITS = [] as const;

/**
 * Builds the two parts of a pair with the value of each term at its adverse end, and sweeps and proves the pair. `findings`:
 * those of the file's corner. Rejects with the signal's reason when cancelled.
 */
export async function measureAdverse(
  { setup, findings }: { setup: Setup; findings: Findings },
  pair: number,
  terms: readonly ErrorTerm[],
  memory: SetupMemory,
  measure: SweepAndProve,
  signal: AbortSignal | undefined,
): Promise<Verified> {
  const { design, settings } = setup;
  const source = terms.reduce(
    (file, { value, end, plusMinus }) =>
      end === 0
        ? file
        : withAmount(
            file,
            value.field,
            typedAmount(design, value.field, value.input) + end * plusMinus.amount,
          ),
    withoutMeasuredTo(design.source),
  );
  const { a, b } = setup.pairs[pair];
  const parts = [a, b].map((solid) => design.corner.parts[setup.solids[solid].partIndex].id);
  const read = parseDesign(JSON.stringify(source), design.assets);
  if (read.kind === 'bad') return { kind: 'notBuilt', problems: read.problems };
  let built: Built;
  try {
    built = await buildCorner(read.design, settings, memory, {
      isWanted: ({ id }) => parts.includes(id),
      measuredOnly: true,
    });
  } catch (error) {
    if (error instanceof DesignProblems) return { kind: 'notBuilt', problems: error.problems };
    throw error;
  }
  const id = pairId(setup.solids, setup.pairs[pair]);
  const adverse = built.pairs.find((one) => pairId(built.solids, one) === id);
  if (adverse === undefined) return { kind: 'unknown', why: 'that corner does not check this pair' };
  const alone = withBodies({ ...built, pairs: [adverse], unchecked: [] }, memory);
  const found = adverse.moves
    ? (await measure(alone, NO_LIMITS, signal)).findings
    : await measureFitPairs(alone);
  const [{ state, worst }] = found.pairs;
  if (adverse.moves && reachesLess(found, findings))
    return {
      kind: 'unknown',
      why: 'the suspension of that corner does not reach all of its travel and lock',
    };
  if (state === 'far') return { kind: 'unknown', why: 'that clearance is beyond the search limit' };
  if (worst === undefined || state === 'unknown' || worst.errorMm === Number.POSITIVE_INFINITY)
    return { kind: 'unknown', why: 'that clearance or depth is not known' };
  return { kind: 'measured', state, worst };
}

/** Whether a corner misses more of its poses than the file's. */
const reachesLess = (adverse: Findings, file: Findings): boolean =>
  adverse.unreachableSteps.length > file.unreachableSteps.length ||
  (adverse.lockedOut?.length ?? 0) > (file.lockedOut?.length ?? 0);
