import { counted } from '../../report/figures.ts';
import type { OpenCorner } from '../engine.ts';
import { useCorner } from '../stores/cornerStore.ts';
import { useView } from '../stores/viewStore.ts';
import { pairLabel, trimmed } from '../words.ts';

interface PairsAsideProps {
  corner: OpenCorner;
  /** Indices of the pairs that are far at every pose. */
  far: readonly number[];
}

/** The pairs that the list leaves out: those never near each other, and those that are not checked, with why. */
export function PairsAside({ corner, far }: PairsAsideProps) {
  const settings = useCorner((state) => state.swept?.result.settings);
  const unit = useView((view) => view.unit);
  const { solids, pairs, unchecked } = corner;
  return (
    <div className="pairs-aside">
      {far.length > 0 && settings !== undefined && (
        <details>
          <summary>
            {counted(far.length, 'pair')} far: {trimmed(settings.limitMm, unit)} {unit} or more apart at every
            pose
          </summary>
          <ul>
            {far.map((pair) => (
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
