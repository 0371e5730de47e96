import { figuresIn } from '../../../report/figures.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { useThrottledPose } from '../../state/useThrottledPose.ts';
import { useView } from '../../state/viewStore.ts';
import { viewSummary } from './viewSummary.ts';

/** Description of the picture for screen readers. `id`: referenced by the view. */
export function ViewSummary({ corner, id }: { corner: OpenCorner; id: string }) {
  const { measured, probeFailure } = useThrottledPose();
  const unit = useView((view) => view.unit);
  const hidden = useView((view) => view.hidden);
  return (
    <p id={id} className="unseen">
      {viewSummary(corner, measured, hidden, figuresIn(unit), probeFailure)}
    </p>
  );
}
