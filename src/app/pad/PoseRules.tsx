import { figuresIn } from '../../report/figures.ts';
import type { OpenCorner } from '../engine.ts';
import { useSession } from '../session.ts';
import { steerScale } from '../steering.ts';
import { usePose } from '../stores/poseStore.ts';
import { useView } from '../stores/viewStore.ts';
import { rackSpoken, travelText } from '../words.ts';
import { Rule } from './Rule.tsx';

/** Bump and droop, up the right edge of the bench. */
export function TravelRule({ corner }: { corner: OpenCorner }) {
  const session = useSession();
  const unit = useView((view) => view.unit);
  const { bump, droop } = corner.design.corner.suspension.travel;
  return (
    <Rule
      label="Travel"
      orientation="vertical"
      axis={{ fromMm: -droop, toMm: bump }}
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

/** Rack travel, along the lower edge of the bench; left lock stands at the left. */
export function SteerRule({ corner }: { corner: OpenCorner }) {
  const session = useSession();
  const unit = useView((view) => view.unit);
  const scale = steerScale(corner.design.corner);
  return (
    <Rule
      label="Steer"
      orientation="horizontal"
      axis={{ fromMm: scale.leftMm, toMm: scale.rightMm }}
      ends={['left lock', 'right lock']}
      value={() => scale.rackMm(usePose.getState().steer)}
      valueText={(mm) => rackSpoken(mm, figuresIn(unit))}
      onMove={(mm) => {
        usePose.setState({ playing: false });
        session.moveTo(usePose.getState().travelMm, scale.steer(mm));
      }}
    />
  );
}
