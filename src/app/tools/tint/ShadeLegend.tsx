import { type Figures, figuresIn, type LengthUnit } from '../../../report/figures.ts';
import { StateMark } from '../../kit/StateMark.tsx';
import { tintRamp } from '../../kit/tint.ts';
import { pairLabel, trimmed } from '../../kit/words.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { usePose } from '../../state/poseStore.ts';
import { useView } from '../../state/viewStore.ts';
import { type LeastFound, NEAR_MM, SHADED_TO_MM } from '../../workers/tint/shadeCorner.ts';
import { type ShadedSurface, useShading } from './shadingStore.ts';
import { useShadingOf } from './useShadingOf.ts';

const TICKS_MM: Record<LengthUnit, readonly number[]> = {
  mm: [0, 5, 10, 15, 20, 25],
  in: [0, 6.35, 12.7, 19.05, 25.4],
};

/** Legend of the gap tint: its scale, the progress, and the gap under the pointer. */
export default function ShadeLegend({ corner }: { corner: OpenCorner }) {
  useShadingOf(corner);
  const { surfaces, state, failure, pointedMm } = useShading();
  const unreachable = usePose(({ view }) => view?.pose.kind === 'unreachable');
  const unit = useView((view) => view.unit);
  const figures = figuresIn(unit);
  const done = [...surfaces.values()];
  const least = leastOf(done);
  const betweenMm = Math.max(0, ...done.map((one) => one.betweenMm));
  const samples = done.reduce((sum, one) => sum + one.samples, 0);
  return (
    <section className="shade-legend" aria-label="Gap tint">
      <header>
        <h2>Gap to the nearest part, {unit}</h2>
        <p title="Under the pointer">
          <span className="unseen">Under the pointer: </span>
          <b data-testid="pointed">{pointedMm === undefined ? '' : pointedText(pointedMm, figures.place)}</b>
        </p>
      </header>
      <div className="shade-ramp" style={{ background: tintRamp(SHADED_TO_MM) }} />
      <div className="shade-ticks">
        {TICKS_MM[unit].map((mm) => (
          <span key={mm} style={{ left: `${(100 * mm) / SHADED_TO_MM}%` }}>
            {trimmed(mm, unit)}
          </span>
        ))}
      </div>
      <p className="shade-lines">
        <svg width="22" height="10" aria-hidden="true">
          <path className="shade-touch" d="M0 5H22" />
        </svg>
        touches
        <svg width="22" height="10" aria-hidden="true">
          <path className="shade-target" d="M0 5H22" />
        </svg>
        target
      </p>
      {failure !== undefined ? (
        <p className="warning">The surfaces cannot be measured: {failure}</p>
      ) : (
        <p role="status" data-shading={state}>
          {unreachable && 'Out of reach: nothing is measured at this pose.'}
          {!unreachable && state === 'waiting' && 'Waiting until the pose is at rest.'}
          {state === 'measuring' && `Measuring: ${surfaces.size} of ${corner.solids.length} parts`}
          {state === 'done' && least === undefined && 'No part is near another.'}
          {state === 'done' && least !== undefined && (
            <>
              <b>
                {!Number.isNaN(least.surfaceErrorMm) && least.clearanceMm <= least.errorMm && (
                  <>
                    <StateMark state="touches" /> touches,{' '}
                  </>
                )}
                {leastText(least, figures)}
              </b>{' '}
              least gap, {pairLabel(corner.solids, corner.pairs[least.pair])}
            </>
          )}
        </p>
      )}
      {state === 'done' && betweenMm > 0 && (
        <p
          className="soft"
          title={`Measured at ${samples} points and interpolated between them. Parts that turn with the wheel are measured as the bodies they sweep.`}
        >
          ± {figures.boundWithUnit(betweenMm)} between samples where the gap is{' '}
          {figures.placeWithUnit(NEAR_MM)} or less. Use the pair list, not the tint, to decide.
        </p>
      )}
    </section>
  );
}

/** With its error bar. For a depth without an upper bound, the proven depth. "?" if it is unknown. */
function leastText({ clearanceMm, errorMm, surfaceErrorMm }: LeastFound, figures: Figures): string {
  if (Number.isNaN(surfaceErrorMm)) return '?';
  const isOpen = errorMm === Number.POSITIVE_INFINITY;
  return figures.withErrorAndUnit(isOpen ? clearanceMm + surfaceErrorMm : clearanceMm, errorMm);
}

function leastOf(surfaces: readonly ShadedSurface[]): ShadedSurface['least'] {
  return surfaces.reduce<ShadedSurface['least']>(
    (least, { least: own }) =>
      own !== undefined && own.clearanceMm < (least?.clearanceMm ?? Number.POSITIVE_INFINITY) ? own : least,
    undefined,
  );
}

function pointedText(mm: number, place: (mm: number) => string): string {
  if (mm < 0) return `${place(-mm)} deep`;
  return mm >= SHADED_TO_MM ? `over ${place(SHADED_TO_MM)}` : place(mm);
}
