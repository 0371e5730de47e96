import { useMemo } from 'react';
import { figuresIn } from '../../report/figures.ts';
import type { OpenCorner } from '../engine.ts';
import { nearestIndex } from '../pad/axis.ts';
import { useSession } from '../session.ts';
import { steerScale } from '../steering.ts';
import { useCorner } from '../stores/cornerStore.ts';
import { usePose } from '../stores/poseStore.ts';
import { usePoseSlowly } from '../stores/usePoseSlowly.ts';
import { useView } from '../stores/viewStore.ts';
import { pairLabel, rackBrief, travelBrief } from '../words.ts';
import { Chart } from './Chart.tsx';
import { alongSteer, alongTravel } from './series.ts';

/** Pairs drawn when none is chosen: those that move, with least margin. */
const TIGHTEST = 2;

/** Clearance of the pair in hand, or of the tightest, against travel and against steer through the pose. */
export function Charts({ corner }: { corner: OpenCorner }) {
  const session = useSession();
  const swept = useCorner((state) => state.swept);
  const chosen = useView((view) => view.pair);
  const unit = useView((view) => view.unit);
  const { travelMm, steer } = usePoseSlowly();
  const figures = figuresIn(unit);
  const scale = useMemo(() => steerScale(corner.design.corner), [corner]);
  const { bump, droop } = corner.design.corner.suspension.travel;

  const steps = useMemo(
    () => ({ travelMm: [...corner.travelMm], rackMm: [...corner.steer].map(scale.rackMm) }),
    [corner, scale],
  );
  const travelIndex = nearestIndex(steps.travelMm, travelMm);
  const steerIndex = nearestIndex(steps.rackMm, scale.rackMm(steer));
  const tightest = swept?.findings.pairs
    .filter(({ pair, worst }) => worst !== undefined && corner.pairs[pair].moves)
    .slice(0, TIGHTEST);
  const pairs = chosen !== undefined ? [chosen] : (tightest ?? []).map(({ pair }) => pair);
  const common = {
    nameOf: (pair: number) => pairLabel(corner.solids, corner.pairs[pair]),
    targetMm: (pair: number) => corner.pairs[pair].targetMm,
  };
  const stop = () => usePose.setState({ playing: false });

  return (
    <>
      <Chart
        {...common}
        against="travel"
        at={rackBrief(steps.rackMm[steerIndex], figures)}
        axis={{ fromMm: -droop, toMm: bump }}
        stepsMm={steps.travelMm}
        ends={['droop', 'bump']}
        series={swept === undefined ? [] : pairs.map((pair) => alongTravel(swept.result, pair, steerIndex))}
        value={() => usePose.getState().travelMm}
        onMove={(mm) => {
          stop();
          session.moveTo(mm, usePose.getState().steer);
        }}
      />
      <Chart
        {...common}
        against="steer"
        at={travelBrief(steps.travelMm[travelIndex], figures)}
        axis={{ fromMm: scale.leftMm, toMm: scale.rightMm }}
        stepsMm={steps.rackMm}
        ends={['left lock', 'right lock']}
        series={swept === undefined ? [] : pairs.map((pair) => alongSteer(swept.result, pair, travelIndex))}
        value={() => scale.rackMm(usePose.getState().steer)}
        onMove={(mm) => {
          stop();
          session.moveTo(usePose.getState().travelMm, scale.steer(mm));
        }}
      />
    </>
  );
}
