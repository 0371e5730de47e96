import { useMemo } from 'react';
import { counted } from '../../report/figures.ts';
import { limitHeading } from '../../report/limitRows.ts';
import { StateMark } from '../kit/StateMark.tsx';
import { TINT_REACH_MM } from '../kit/tint.ts';
import { pairLabel, trimmed } from '../kit/words.ts';
import { movingPairs, type OpenCorner } from '../state/engine.ts';
import { useUsableOf } from '../state/usableStore.ts';
import { useDeferredSweep } from '../state/useDeferredSweep.ts';
import { useView } from '../state/viewStore.ts';
import { MapPad } from './MapPad.tsx';
import { StaleNote } from './StaleNote.tsx';
import { stepPicture } from './stepPicture.ts';

/** The sweep map with heading and key, for the selected pair or the worst case of all moving pairs. */
export function MapPanel({ corner }: { corner: OpenCorner }) {
  const swept = useDeferredSweep(corner);
  const pair = useView((view) => view.pair);
  const unit = useView((view) => view.unit);
  const pairs = useMemo(() => (pair === undefined ? movingPairs(corner) : [pair]), [pair, corner]);
  const picture = useMemo(() => {
    if (swept === undefined) return undefined;
    return stepPicture(swept.result, pairs, pair === undefined ? swept.findings.bindingSteps : undefined);
  }, [swept, pairs, pair]);
  const worst = useMemo(() => {
    const findings = swept?.findings.pairs;
    const finding = findings?.find((one) =>
      pair === undefined ? corner.pairs[one.pair].moves : one.pair === pair,
    );
    return finding?.worst;
  }, [swept, pair, corner]);
  const fitTouches = (swept?.findings.pairs ?? []).filter(
    (one) => one.state === 'touches' && !corner.pairs[one.pair].moves,
  ).length;
  const usable = useUsableOf(corner.design.hash);
  const has = (state: string) => picture?.states.includes(state as never) ?? false;

  return (
    <section className="map-panel" aria-label="Sweep map">
      <StaleNote />
      <header className="map-heading">
        <h2>{pair === undefined ? 'Worst margin over travel and steer' : 'Margin over travel and steer'}</h2>
        {pair !== undefined && (
          <button type="button" className="quiet" onClick={() => useView.setState({ pair: undefined })}>
            All pairs
          </button>
        )}
      </header>
      <p className="map-subject">
        {pair !== undefined ? (
          pairLabel(corner.solids, corner.pairs[pair])
        ) : fitTouches === 0 ? (
          'All pairs that move against each other'
        ) : (
          <>
            <StateMark state="touches" /> {counted(fitTouches, 'fit pair touches', 'fit pairs touch')} at
            every pose; the map shows pairs that move
          </>
        )}
      </p>
      <MapPad corner={corner} picture={picture} pairs={pairs} worst={worst} />
      <ul className="map-key" aria-label="Key to the map">
        <li>
          <span className="swatch swatch-tint" aria-hidden="true" /> 0 to {trimmed(TINT_REACH_MM, unit, 1)}{' '}
          {unit} left
        </li>
        <li>
          <span className="swatch swatch-contour" aria-hidden="true" /> target
        </li>
        <li>
          <span className="swatch swatch-contour swatch-contact" aria-hidden="true" /> contact
        </li>
        <li>
          <span className="swatch swatch-hatch" aria-hidden="true" /> touches
        </li>
        {usable !== undefined && usable.edges.length > 0 && (
          <li>
            <span className="swatch swatch-contour swatch-usable" aria-hidden="true" /> usable part, ends at
          </li>
        )}
        {usable?.stretches.map(({ number, bound }) => (
          <li key={number}>
            {number} {bound}
          </li>
        ))}
        {has('binds') && (
          <li>
            <span className="swatch swatch-binds" aria-hidden="true" />{' '}
            {limitHeading(corner.design.corner).toLowerCase()} binds
          </li>
        )}
        {has('pending') && (
          <li>
            <span className="swatch swatch-guess" aria-hidden="true" /> estimate, not swept yet
          </li>
        )}
        {has('unreachable') && (
          <li>
            <span className="swatch swatch-blank" aria-hidden="true" /> out of reach
          </li>
        )}
        {has('unknown') && (
          <li>
            <span className="swatch swatch-unknown" aria-hidden="true">
              ?
            </span>{' '}
            unknown
          </li>
        )}
      </ul>
    </section>
  );
}
