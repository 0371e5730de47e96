import { useEffect } from 'react';
import type { Carriers } from '../../mechanism/pose.ts';
import { figuresIn } from '../../report/figures.ts';
import type { OpenCorner } from '../engine.ts';
import { usePoseSlowly } from '../stores/usePoseSlowly.ts';
import { useView } from '../stores/viewStore.ts';
import { FeatureList } from './FeatureList.tsx';
import type { Measured, Offsets } from './measured.ts';
import { angleText, pickText } from './pickWords.ts';
import { letGo, useTape } from './tapeStore.ts';
import { useTapeBetween } from './useTapeBetween.ts';
import { useTapeReading } from './useTapeReading.ts';

/** What the tape is held to, what it reads, and the list to pick from without a pointer. */
export default function TapePanel({ corner }: { corner: OpenCorner }) {
  useTapeReading(corner);
  const between = useTapeBetween(corner);
  const picks = useTape((tape) => tape.picks);
  const offered = useTape((tape) => tape.offered);
  const onlyPlaces = useTape((tape) => tape.onlyPlaces);
  const failure = useTape((tape) => tape.failure);
  const unit = useView((view) => view.unit);
  useEscape();
  const wanted = picks.length === 1 ? 'Pick the second' : 'Pick the first';
  const offeredText = offered && pickText(corner.solids, offered, unit);
  return (
    <section className="tape-panel" aria-label="Tape">
      <header>
        <h2>Tape</h2>
        <button
          type="button"
          className="quiet"
          aria-pressed={onlyPlaces}
          title="Pick the point of the surface under the pointer, no edge, hole or face"
          onClick={() => useTape.setState({ onlyPlaces: !onlyPlaces })}
        >
          Points only
        </button>
        <button
          type="button"
          className="quiet"
          aria-label="Put the tape away"
          title="Put the tape away"
          onClick={() => useView.setState({ tape: false })}
        >
          ✕
        </button>
      </header>
      {failure !== undefined && <p className="warning">The parts cannot be read: {failure}</p>}
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
                aria-label={`Let go of ${name}`}
                onClick={() => letGo(index)}
              >
                ✕
              </button>
            </li>
          );
        })}
      </ol>
      <p className="tape-offer" role="status">
        {offeredText ?? (picks.length < 2 ? `${wanted}: click it, or choose it from the list.` : '')}
      </p>
      {between !== undefined && <TapeReading between={between} />}
      <FeatureList corner={corner} />
    </section>
  );
}

function TapeReading({ between }: { between(carriers: Carriers): Measured }) {
  const { drawn } = usePoseSlowly();
  const unit = useView((view) => view.unit);
  if (drawn === undefined) return null;
  const { distanceMm, errorMm, angle, offsets } = between(drawn);
  const figures = figuresIn(unit);
  return (
    <>
      <dl className="tape-reading" aria-label="What the tape reads">
        <div title="The shortest way between the two; ± how far both meshes may be from the true parts">
          <dt>Distance</dt>
          <dd>
            {figures.withError(distanceMm, errorMm)} {unit}
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
  const told = (mm: number) => figures.signedWithError(mm, errorMm);
  const rows = [
    ['forward', told(vehicle.forwardMm), told(wheel.forwardMm)],
    ['left', told(vehicle.leftMm), ''],
    ['outboard', '', told(wheel.outboardMm)],
    ['up', told(vehicle.upMm), told(wheel.upMm)],
    ['off the axis', '', told(wheel.awayFromAxisMm)],
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
          <th scope="col" title="The wheel's own axes as it stands at this pose">
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

/** Escape lets go of what is picked; once nothing is, it puts the tape away. */
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
