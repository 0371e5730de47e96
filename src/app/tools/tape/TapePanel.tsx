import { useEffect } from 'react';
import type { Carriers } from '../../../mechanism/pose.ts';
import { figuresIn } from '../../../report/figures.ts';
import { withFraction } from '../../kit/words.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { useThrottledPose } from '../../state/useThrottledPose.ts';
import { useView } from '../../state/viewStore.ts';
import { FeatureList } from './FeatureList.tsx';
import type { Measured, Offsets } from './measured.ts';
import { angleText, pickText } from './pickWords.ts';
import { removePick, useTape } from './tapeStore.ts';
import { useTapeBetween } from './useTapeBetween.ts';
import { useTapeReading } from './useTapeReading.ts';

/** The picks of the tape, its reading, and the list to pick from by keyboard. */
export default function TapePanel({ corner }: { corner: OpenCorner }) {
  useTapeReading(corner);
  const between = useTapeBetween(corner);
  const picks = useTape((tape) => tape.picks);
  const offered = useTape((tape) => tape.offered);
  const onlyPlaces = useTape((tape) => tape.onlyPlaces);
  const failure = useTape((tape) => tape.failure);
  const unit = useView((view) => view.unit);
  useEscape();
  const prompt = `Pick the ${picks.length === 1 ? 'second' : 'first'} feature in the view or in the list.`;
  const offeredText = offered && pickText(corner.solids, offered, unit);
  return (
    <section className="tape-panel" aria-label="Tape">
      <header>
        <h2>Tape</h2>
        <button
          type="button"
          className="quiet"
          aria-pressed={onlyPlaces}
          title="Pick points of the surface only, no edges, holes or faces"
          onClick={() => useTape.setState({ onlyPlaces: !onlyPlaces })}
        >
          Points only
        </button>
        <button
          type="button"
          className="quiet"
          aria-label="Close the tape"
          title="Close the tape"
          onClick={() => useView.setState({ tape: false })}
        >
          ✕
        </button>
      </header>
      {failure !== undefined && <p className="warning">The features cannot be found: {failure}</p>}
      <ol>
        {picks.map((pick, index) => {
          const name = pickText(corner.solids, pick, unit);
          return (
            // biome-ignore lint/suspicious/noArrayIndexKey: first and second
            <li key={index}>
              <span>{name}</span>
              <button
                type="button"
                className="quiet"
                aria-label={`Remove ${name}`}
                onClick={() => removePick(index)}
              >
                ✕
              </button>
            </li>
          );
        })}
      </ol>
      <p className="tape-offer" role="status">
        {offeredText ?? (picks.length < 2 ? prompt : '')}
      </p>
      {between !== undefined && <TapeReading between={between} />}
      <FeatureList corner={corner} />
    </section>
  );
}

function TapeReading({ between }: { between(carriers: Carriers): Measured }) {
  const { drawn } = useThrottledPose();
  const unit = useView((view) => view.unit);
  const fraction = useView((view) => view.fraction);
  if (drawn === undefined) return null;
  const { distanceMm, errorMm, angle, offsets } = between(drawn);
  const figures = figuresIn(unit);
  return (
    <>
      <dl className="tape-reading" aria-label="Tape reading">
        <div title="Shortest distance between the two. The error covers how far both meshes may be from the true parts.">
          <dt>Distance</dt>
          <dd>
            {withFraction(figures.withErrorAndUnit(distanceMm, errorMm), distanceMm, { unit, fraction })}
          </dd>
        </div>
        {angle !== undefined && (
          <div>
            <dt>Angle</dt>
            <dd>{angleText(angle)}</dd>
          </div>
        )}
      </dl>
      {offsets !== undefined && <OffsetTable offsets={offsets} errorMm={errorMm} />}
    </>
  );
}

/** From the first pick to the second. */
function OffsetTable({ offsets: { vehicle, wheel }, errorMm }: { offsets: Offsets; errorMm: number }) {
  const unit = useView((view) => view.unit);
  const figures = figuresIn(unit);
  const text = (mm: number) => figures.signedWithError(mm, errorMm);
  const rows = [
    ['forward', text(vehicle.forwardMm), text(wheel.forwardMm)],
    ['left', text(vehicle.leftMm), ''],
    ['outboard', '', text(wheel.outboardMm)],
    ['up', text(vehicle.upMm), text(wheel.upMm)],
    ['radial', '', text(wheel.awayFromAxisMm)],
  ] as const;
  return (
    <table className="tape-offsets">
      <caption>From first to second, {unit}</caption>
      <thead>
        <tr>
          <td />
          <th scope="col" title="X forward, Y left, Z up">
            Vehicle
          </th>
          <th scope="col" title="The wheel's own axes at this pose; radial: away from the wheel axis">
            Wheel
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map(([name, ofVehicle, ofWheel]) => (
          <tr key={name}>
            <th scope="row">{name}</th>
            <td>{ofVehicle}</td>
            <td>{ofWheel}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Escape removes the picks; without picks it closes the tape. */
function useEscape(): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      const isTyping =
        event.target instanceof HTMLInputElement || event.target instanceof HTMLTextAreaElement;
      if (event.key !== 'Escape' || event.defaultPrevented || isTyping) return;
      if (document.querySelector('dialog[open]') !== null) return;
      if (useTape.getState().picks.length > 0) useTape.setState({ picks: [], offered: undefined });
      else useView.setState({ tape: false });
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, []);
}
