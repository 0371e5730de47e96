import { isJoined, treatmentInWords } from '../../../report/treatment.ts';
import { capital } from '../../kit/words.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { useView } from '../../state/viewStore.ts';

/** How the selected pair is checked, and the button that shows its zones in the view. */
export function PairZones({ corner }: { corner: OpenCorner }) {
  const index = useView((view) => view.pair);
  const shown = useView((view) => view.zonesShown);
  const pair = index === undefined ? undefined : corner.pairs[index];
  if (pair === undefined) return null;
  return (
    <div className="pair-zones">
      <span>{capital(treatmentInWords(pair))}</span>
      {isJoined(pair) && (
        <button
          type="button"
          aria-pressed={shown}
          title="Outline in the view where contact between these two parts is intended"
          onClick={() => useView.setState({ zonesShown: !shown })}
        >
          Show zones
        </button>
      )}
    </div>
  );
}
