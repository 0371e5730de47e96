import { useMemo } from 'react';
import type { PairFinding } from '../../findings/findings.ts';
import { figuresIn } from '../../report/figures.ts';
import type { OpenCorner } from '../engine.ts';
import { nearestIndex } from '../pad/axis.ts';
import { useSession } from '../session.ts';
import { steerScale } from '../steering.ts';
import { measuredPair } from '../stores/measuredPair.ts';
import { measuredNow, usePose } from '../stores/poseStore.ts';
import { usePoseSlowly } from '../stores/usePoseSlowly.ts';
import { useSweptLater } from '../stores/useSweptLater.ts';
import { useView } from '../stores/viewStore.ts';
import { pairLabel, rackText, travelText } from '../words.ts';
import { Chart } from './Chart.tsx';
import { readingText } from './readingText.ts';
import { type Line, lineOfSteer, lineOfTravel, seriesOf } from './series.ts';
import { useBands } from './useBands.ts';

/** Pairs drawn when none is chosen: those that move, with least margin. */
const TIGHTEST = 2;
/** As many lines as can be told apart, and named, in so little room. */
const MOST_PAIRS = 3;

/** Clearance of the pair in hand and of those kept, or of the tightest, against travel and against steer through the pose. */
export function Charts({ corner }: { corner: OpenCorner }) {
  const session = useSession();
  const swept = useSweptLater(corner);
  const inHand = useView((view) => view.pair);
  const kept = useView((view) => view.charted);
  const unit = useView((view) => view.unit);
  const pose = usePoseSlowly();
  const { travelMm, steer } = pose;
  const figures = figuresIn(unit);
  const scale = useMemo(() => steerScale(corner.design.corner), [corner]);
  const { bump, droop } = corner.design.corner.suspension.travel;

  const steps = useMemo(
    () => ({ travelMm: [...corner.travelMm], rackMm: [...corner.steer].map(scale.rackMm) }),
    [corner, scale],
  );
  const travelIndex = nearestIndex(steps.travelMm, travelMm);
  const steerIndex = nearestIndex(steps.rackMm, scale.rackMm(steer));
  const chosen = [...new Set([...(inHand === undefined ? [] : [inHand]), ...kept])].slice(0, MOST_PAIRS);
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
    canKeep: kept.length < MOST_PAIRS,
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
        at={rackText(steps.rackMm[steerIndex], figures)}
        axis={{ fromMm: -droop, toMm: bump }}
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
        axis={{ fromMm: scale.leftMm, toMm: scale.rightMm }}
        stepsMm={steps.rackMm}
        ends={['left lock', 'right lock']}
        series={steerSeries}
        bands={steerBands}
        value={() => scale.rackMm(usePose.getState().steer)}
        onMove={(mm) => session.moveTo(usePose.getState().travelMm, scale.steer(mm))}
      />
    </>
  );
}

const tightestOf = (corner: OpenCorner, findings: readonly PairFinding[]): number[] =>
  findings
    .filter(({ pair, worst }) => worst !== undefined && corner.pairs[pair].moves)
    .slice(0, TIGHTEST)
    .map(({ pair }) => pair);
