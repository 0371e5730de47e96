import { useMemo } from 'react';
import type { PairFinding } from '../../findings/findings.ts';
import { type Line, lineOfSteer, lineOfTravel, seriesOf } from '../../report/curves/series.ts';
import { figuresIn } from '../../report/figures.ts';
import { steeringFigures } from '../../report/steering.ts';
import { nearestIndex } from '../kit/axis.ts';
import { pairLabel, steeringText, travelText } from '../kit/words.ts';
import type { OpenCorner } from '../state/engine.ts';
import { measuredPair } from '../state/measuredPair.ts';
import { measuredNow, usePose } from '../state/poseStore.ts';
import { useSession } from '../state/session.ts';
import { steerScale } from '../state/steering.ts';
import { useDeferredSweep } from '../state/useDeferredSweep.ts';
import { useThrottledPose } from '../state/useThrottledPose.ts';
import { useView } from '../state/viewStore.ts';
import { Chart } from './Chart.tsx';
import { readingText } from './readingText.ts';
import { useBands } from './useBands.ts';

/** Number of pairs drawn if none is selected: the moving pairs with the least margin. */
const TIGHTEST = 2;
/** Largest number of lines that can be distinguished and labelled. */
const MAX_PAIRS = 3;

/** Clearance of the selected and kept pairs, else the tightest, against travel and steer through the current pose. */
export function Charts({ corner }: { corner: OpenCorner }) {
  const session = useSession();
  const swept = useDeferredSweep(corner);
  const selected = useView((view) => view.pair);
  const kept = useView((view) => view.charted);
  const unit = useView((view) => view.unit);
  const pose = useThrottledPose();
  const { travelMm, steer } = pose;
  const figures = figuresIn(unit);
  const scale = useMemo(() => steerScale(corner.design.corner), [corner]);
  const { bump, droop } = corner.design.corner.suspension.travel;

  const steps = useMemo(
    () => ({ travelMm: [...corner.travelMm], inputs: [...corner.steer].map(scale.input) }),
    [corner, scale],
  );
  const travelIndex = nearestIndex(steps.travelMm, travelMm);
  const steerIndex = nearestIndex(steps.inputs, scale.input(steer));
  const chosen = [...new Set([...(selected === undefined ? [] : [selected]), ...kept])].slice(0, MAX_PAIRS);
  const pairs = chosen.length > 0 ? chosen : tightestOf(corner, swept?.findings.pairs ?? []);
  const seriesAlong = (line: Line) =>
    swept === undefined ? [] : pairs.map((pair) => seriesOf(swept.result, pair, line));
  const byTravel = lineOfTravel(corner, steerIndex);
  const bySteer = lineOfSteer(corner, travelIndex);
  const travelSeries = seriesAlong(byTravel);
  const steerSeries = seriesAlong(bySteer);
  const travelBands = useBands(corner, swept?.result, byTravel, travelSeries);
  const steerBands = useBands(corner, swept?.result, bySteer, steerSeries);

  const common = {
    kept,
    canKeep: kept.length < MAX_PAIRS,
    onKeep: (pair: number) =>
      useView.setState(({ charted }) => ({
        charted: charted.includes(pair) ? charted.filter((one) => one !== pair) : [...charted, pair],
      })),
    nameOf: (pair: number) => pairLabel(corner.solids, corner.pairs[pair]),
    readingOf(pair: number) {
      const measured = measuredNow(pose);
      if (measured === undefined) return '';
      const found = measuredPair(corner, measured, pair);
      return readingText(found, corner.pairs[pair], corner.settings.limitMm, figures);
    },
    targetMm: (pair: number) => corner.pairs[pair].targetMm,
  };
  return (
    <>
      <Chart
        {...common}
        against="travel"
        at={steeringText(steps.inputs[steerIndex], steeringFigures(corner.design.corner, figures))}
        axis={{ fromMm: -droop, toMm: bump }}
        axisUnit={unit}
        stepsMm={steps.travelMm}
        ends={['droop', 'bump']}
        series={travelSeries}
        bands={travelBands}
        value={() => usePose.getState().travelMm}
        onMove={(mm) => session.moveTo(mm, usePose.getState().steer)}
      />
      <Chart
        {...common}
        against="steer"
        at={travelText(steps.travelMm[travelIndex], figures)}
        axis={{ fromMm: scale.left, toMm: scale.right }}
        axisUnit={scale.unit(unit)}
        stepsMm={steps.inputs}
        ends={['left lock', 'right lock']}
        series={steerSeries}
        bands={steerBands}
        value={() => scale.input(usePose.getState().steer)}
        onMove={(input) => session.moveTo(usePose.getState().travelMm, scale.steer(input))}
      />
    </>
  );
}

const tightestOf = (corner: OpenCorner, findings: readonly PairFinding[]): number[] =>
  findings
    .filter(({ pair, worst }) => worst !== undefined && corner.pairs[pair].moves)
    .slice(0, TIGHTEST)
    .map(({ pair }) => pair);
