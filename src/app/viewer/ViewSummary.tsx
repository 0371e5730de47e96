import { figuresIn } from '../../report/figures.ts';
import type { OpenCorner } from '../engine.ts';
import { usePoseSlowly } from '../stores/usePoseSlowly.ts';
import { useView } from '../stores/viewStore.ts';
import { viewSummary } from './viewSummary.ts';

/** What the picture shows, for those who read the screen by ear; `id` for the view to be described by. */
export function ViewSummary({ corner, id }: { corner: OpenCorner; id: string }) {
  const { measured, probeFailure } = usePoseSlowly();
  const unit = useView((view) => view.unit);
  const hidden = useView((view) => view.hidden);
  return (
    <p id={id} className="unseen">
      {viewSummary(corner, measured, hidden, figuresIn(unit), probeFailure)}
    </p>
  );
}
