import { figuresIn } from '../../report/figures.ts';
import type { OpenCorner } from '../engine.ts';
import { useView } from '../stores/viewStore.ts';
import { capital, pairLabel } from '../words.ts';
import { zoneLegend } from './zoneLegend.ts';

/** What the outlined zones of the chosen pair are, and how large. */
export default function ZoneLegend({ corner }: { corner: OpenCorner }) {
  const index = useView((view) => view.pair);
  const unit = useView((view) => view.unit);
  const pair = index === undefined ? undefined : corner.pairs[index];
  if (pair === undefined || pair.zones.length === 0) return null;
  return (
    <section className="zone-legend" aria-label="Zones of intended contact">
      <h2>{pairLabel(corner.solids, pair)}: contact is intended here</h2>
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
