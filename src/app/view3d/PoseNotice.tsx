import { figuresIn } from '../../report/figures.ts';
import { StateMark } from '../kit/StateMark.tsx';
import { pairLabel, poseBrief, signedMargin, stateText, stopsText } from '../kit/words.ts';
import type { OpenCorner } from '../state/engine.ts';
import { measuredPair } from '../state/measuredPair.ts';
import { useThrottledPose } from '../state/useThrottledPose.ts';
import { useView } from '../state/viewStore.ts';

/** Notice about the pose: that it is out of reach, or the state of the selected pair at it. */
export function PoseNotice({ corner }: { corner: OpenCorner }) {
  const { view, measured, probeFailure } = useThrottledPose();
  const { pair, unit } = useView();
  const figures = figuresIn(unit);
  if (view?.pose.kind === 'unreachable') {
    const { reason, nearest } = view.pose;
    return (
      <div className="pose-notice" role="status">
        <strong>Out of reach here:</strong> {reason} The parts are drawn at the last reachable pose.
        {nearest !== undefined &&
          ` Nearest at this steer: ${poseBrief(corner.design.corner, nearest.travelMm, nearest.steer, figures)}.`}
      </div>
    );
  }
  if (probeFailure !== undefined)
    return (
      <div className="pose-notice" role="status">
        <strong>Clearances at this pose cannot be measured:</strong> {probeFailure}
      </div>
    );
  if (pair === undefined || measured === undefined) return null;
  const found = measuredPair(corner, measured, pair);
  const where = poseBrief(corner.design.corner, measured.travelMm, measured.steer, figures);
  const stops = stopsText(corner.design.corner, measured.travelMm, measured.steer);
  return (
    <div className="pose-notice" role="status" data-state={found?.state}>
      <strong>{pairLabel(corner.solids, corner.pairs[pair])}</strong> at {where}
      {stops === '' ? '' : ` (${stops})`}:{' '}
      {found === undefined ? (
        'not measured'
      ) : (
        <>
          <StateMark state={found.state} />{' '}
          <b>{stateText(found.state, corner.pairs[pair], corner.settings.limitMm, figures)}</b>
          {Number.isFinite(found.clearanceMm) && (
            <>
              , {figures.withErrorAndUnit(found.clearanceMm, found.errorMm)}, margin{' '}
              {signedMargin(found.marginMm, found.errorMm, figures)} {unit}
            </>
          )}
        </>
      )}
    </div>
  );
}
