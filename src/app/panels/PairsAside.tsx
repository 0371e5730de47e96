import type { PairFinding } from '../../findings/findings.ts';
import { counted, figuresIn } from '../../report/figures.ts';
import { farProvenInWords } from '../../report/proven.ts';
import type { OpenCorner } from '../engine.ts';
import { useCorner } from '../stores/cornerStore.ts';
import { useView } from '../stores/viewStore.ts';
import { pairLabel, trimmed } from '../words.ts';

interface PairsAsideProps {
  corner: OpenCorner;
  /** The pairs that are far at every step. */
  far: readonly PairFinding[];
}

/** The pairs that the list leaves out: those never near each other, and those that are not checked, with why. */
export function PairsAside({ corner, far }: PairsAsideProps) {
  const result = useCorner((state) => state.swept?.result);
  const unit = useView((view) => view.unit);
  const { solids, pairs, unchecked } = corner;
  const proven = result === undefined ? '' : farProvenInWords({ solids, result }, far, figuresIn(unit));
  return (
    <div className="pairs-aside">
      {far.length > 0 && result !== undefined && (
        <details>
          <summary>
            {counted(far.length, 'pair')} far: {trimmed(result.settings.limitMm, unit)} {unit} or more at
            every step
          </summary>
          {proven !== '' && <p>{proven}</p>}
          <ul>
            {far.map(({ pair }) => (
              <li key={pair}>{pairLabel(solids, pairs[pair])}</li>
            ))}
          </ul>
        </details>
      )}
      {unchecked.length > 0 && (
        <details>
          <summary>{counted(unchecked.length, 'pair is', 'pairs are')} not checked</summary>
          <ul>
            {unchecked.map((pair) => (
              <li key={`${pair.a} ${pair.b}`}>
                {pairLabel(solids, pair)}: {pair.why}
              </li>
            ))}
          </ul>
        </details>
      )}
    </div>
  );
}
