import { shownSteer } from '../../design/side.ts';
import { angle, figuresIn, signedAngle } from '../../report/figures.ts';
import { poseBrief } from '../kit/words.ts';
import type { OpenCorner } from '../state/engine.ts';
import { useThrottledPose } from '../state/useThrottledPose.ts';
import { useView } from '../state/viewStore.ts';

/** Alignment at the current pose. */
export function PoseReadout({ corner }: { corner: OpenCorner }) {
  const { travelMm, steer, view } = useThrottledPose();
  const unit = useView((state) => state.unit);
  const figures = figuresIn(unit);
  const alignment = view?.alignment;
  const { side } = corner.design.corner;
  const rows: readonly (readonly [string, string, string])[] =
    alignment === undefined
      ? []
      : [
          ['Camber', signedAngle(alignment.camberDeg), 'positive: top outboard'],
          ['Toe', `${signed2(alignment.toeDeg)}°`, 'positive: toe-in'],
          ['Caster', signedAngle(alignment.casterDeg), 'positive: top rearward'],
          ['Kingpin inclination', angle(alignment.kingpinInclinationDeg), 'positive: top inboard'],
          [
            'Road-wheel angle',
            signedAngle(shownSteer(side, alignment.roadWheelAngleDeg)),
            'positive: front edge to the left',
          ],
          ['Scrub radius', figures.placeWithUnit(alignment.scrubRadiusMm), 'at the ground'],
          [
            'Damper length',
            alignment.damperLengthMm === undefined ? 'none' : figures.placeWithUnit(alignment.damperLengthMm),
            'between its mounts',
          ],
        ];
  return (
    <section className="readout" aria-label="This pose">
      <h2>{poseBrief(corner.design.corner, travelMm, steer, figures)}</h2>
      {view?.pose.kind === 'unreachable' && <p className="warning">Out of reach: {view.pose.reason}</p>}
      <dl>
        {rows.map(([name, value, title]) => (
          <div key={name} title={title}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

const signed2 = (degrees: number): string => {
  const text = Math.abs(degrees).toFixed(2);
  return Number(text) === 0 ? text : degrees < 0 ? `−${text}` : `+${text}`;
};
