import { figuresIn } from '../../../report/figures.ts';
import { capital, pairLabel } from '../../kit/words.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { useView } from '../../state/viewStore.ts';
import { zoneLegend } from './zoneLegend.ts';

/** Kinds and sizes of the selected pair's outlined zones. */
export default function ZoneLegend({ corner }: { corner: OpenCorner }) {
  const index = useView((view) => view.pair);
  const unit = useView((view) => view.unit);
  const pair = index === undefined ? undefined : corner.pairs[index];
  if (pair === undefined || pair.zones.length === 0) return null;
  return (
    <section className="zone-legend" aria-label="Zones of intended contact">
      <h2>{pairLabel(corner.solids, pair)}: zones of intended contact</h2>
      <ul>
        {zoneLegend(pair.zones, figuresIn(unit)).map(({ text, count }) => (
          <li key={text}>
            {count > 1 && `${count} × `}
            {capital(text)}
          </li>
        ))}
      </ul>
    </section>
  );
}
