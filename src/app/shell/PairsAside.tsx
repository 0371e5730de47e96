import type { ReactNode } from 'react';
import type { PairFinding } from '../../findings/findings.ts';
import { counted, figuresIn } from '../../report/figures.ts';
import { farProvenInWords } from '../../report/proven.ts';
import { coverInWords, isJoined, nothingElseInWords } from '../../report/treatment.ts';
import type { SweepResult } from '../../sweep/result.ts';
import { pairLabel, trimmed } from '../kit/words.ts';
import { useCorner } from '../state/cornerStore.ts';
import type { OpenCorner } from '../state/engine.ts';
import { useSession } from '../state/session.ts';
import { useView } from '../state/viewStore.ts';

interface PairsAsideProps {
  corner: OpenCorner;
  /** The pairs that are far at every step. */
  far: readonly PairFinding[];
}

/**
 * The pairs that are not in the list: far pairs, joined pairs with nothing else near, and pairs that are not checked, with
 * the reason.
 */
export function PairsAside({ corner, far }: PairsAsideProps) {
  const result = useCorner((state) => state.swept?.result);
  const unit = useView((view) => view.unit);
  const { solids, pairs, unchecked } = corner;
  const isJoinedPair = ({ pair }: PairFinding) => isJoined(pairs[pair]);
  const apart = far.filter((finding) => !isJoinedPair(finding));
  const joined = far.filter(isJoinedPair);
  return (
    <div className="pairs-aside">
      {apart.length > 0 && result !== undefined && (
        <FarPairs corner={corner} result={result} far={apart}>
          {counted(apart.length, 'pair')} far: {trimmed(result.settings.limitMm, unit)} {unit} or more at
          every step
        </FarPairs>
      )}
      {joined.length > 0 && result !== undefined && (
        <FarPairs corner={corner} result={result} far={joined}>
          {counted(joined.length, 'pair')} joined;{' '}
          {nothingElseInWords(result.settings.limitMm, figuresIn(unit))} at any step
        </FarPairs>
      )}
      {unchecked.length > 0 && (
        <details>
          <summary>{counted(unchecked.length, 'pair is', 'pairs are')} not checked</summary>
          <ul>
            {unchecked.map((pair) => (
              <li key={`${pair.a} ${pair.b}`}>
                {pairLabel(solids, pair)}: {pair.why}. Checks of dimensions that cover it:{' '}
                {coverInWords(pair)}.
              </li>
            ))}
          </ul>
        </details>
      )}
    </div>
  );
}

interface FarPairsProps extends PairsAsideProps {
  result: SweepResult;
  /** Heading of the group. */
  children: ReactNode;
}

/** Pairs with no clearance within the search limit at any step. Each can be chosen. */
function FarPairs({ corner, result, far, children }: FarPairsProps) {
  const session = useSession();
  const chosen = useView((view) => view.pair);
  const unit = useView((view) => view.unit);
  const { solids, pairs } = corner;
  const proven = farProvenInWords({ solids, result }, far, figuresIn(unit));
  return (
    <details>
      <summary>{children}</summary>
      {proven !== '' && <p>{proven}</p>}
      <ul>
        {far.map(({ pair }) => (
          <li key={pair}>
            <button
              type="button"
              className="quiet"
              aria-pressed={chosen === pair}
              onClick={() => session.showPair(pair)}
            >
              {pairLabel(solids, pairs[pair])}
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
}
