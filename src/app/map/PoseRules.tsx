import { figuresIn } from '../../report/figures.ts';
import { steeringFigures } from '../../report/steering.ts';
import { steeringSpoken, travelText } from '../kit/words.ts';
import type { OpenCorner } from '../state/engine.ts';
import { usePose } from '../state/poseStore.ts';
import { useSession } from '../state/session.ts';
import { steerScale } from '../state/steering.ts';
import { useView } from '../state/viewStore.ts';
import { Rule } from './Rule.tsx';

/** Slider for travel, along the right edge of the view. */
export function TravelRule({ corner }: { corner: OpenCorner }) {
  const session = useSession();
  const unit = useView((view) => view.unit);
  const { bump, droop } = corner.design.corner.suspension.travel;
  return (
    <Rule
      label="Travel"
      orientation="vertical"
      axis={{ fromMm: -droop, toMm: bump }}
      unit={unit}
      ends={['droop', 'bump']}
      value={() => usePose.getState().travelMm}
      valueText={(mm) => travelText(mm, figuresIn(unit))}
      onMove={(mm) => {
        usePose.setState({ playing: false });
        session.moveTo(mm, usePose.getState().steer);
      }}
    />
  );
}

/** Slider for the steering input, along the lower edge of the view; left lock is on the left. */
export function SteerRule({ corner }: { corner: OpenCorner }) {
  const session = useSession();
  const unit = useView((view) => view.unit);
  const scale = steerScale(corner.design.corner);
  return (
    <Rule
      label="Steer"
      orientation="horizontal"
      axis={{ fromMm: scale.left, toMm: scale.right }}
      unit={scale.unit(unit)}
      ends={['left lock', 'right lock']}
      value={() => scale.input(usePose.getState().steer)}
      valueText={(input) => steeringSpoken(input, steeringFigures(corner.design.corner, figuresIn(unit)))}
      onMove={(input) => {
        usePose.setState({ playing: false });
        session.moveTo(usePose.getState().travelMm, scale.steer(input));
      }}
    />
  );
}
