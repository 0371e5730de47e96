import { Fragment, useRef } from 'react';
import { figuresIn } from '../../../report/figures.ts';
import { StateMark } from '../../kit/StateMark.tsx';
import { useScrollIntoView } from '../../kit/useScrollIntoView.ts';
import { bindingTexts, pairLabel, poseBrief, stateText } from '../../kit/words.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { type MeasuredPair, measuredPair } from '../../state/measuredPair.ts';
import { measuredNow, usePose } from '../../state/poseStore.ts';
import { useSession } from '../../state/session.ts';
import { useThrottledPose } from '../../state/useThrottledPose.ts';
import { useView } from '../../state/viewStore.ts';
import { clearanceText, differenceText } from './clearanceText.ts';
import { HOLD_BUTTON_ID } from './HoldButton.tsx';
import { heldResult, releasePose, useHold } from './holdStore.ts';
import { useHeldMeasured } from './useHeldMeasured.ts';

/** Table of the held poses: the clearance of the selected pair at each of them and at the current pose. */
export function HeldPoses({ corner }: { corner: OpenCorner }) {
  useHeldMeasured(corner);
  const session = useSession();
  const state = useHold();
  const { pair, unit } = useView();
  const pose = useThrottledPose();
  const { travelMm, steer } = pose;
  const held = useRef<HTMLElement>(null);
  useScrollIntoView(held, 'tbody tr:nth-last-child(2)', state.poses.at(-1)?.letter);
  if (state.poses.length === 0) return null;
  const figures = figuresIn(unit);
  const { limitMm } = corner.settings;
  const textOf = (found: MeasuredPair | undefined) =>
    [
      found === undefined || pair === undefined
        ? ''
        : stateText(found.state, corner.pairs[pair], limitMm, figures),
      clearanceText(found, figures),
    ] as const;
  const briefOf = (travel: number, lock: number) => (
    <>
      {poseBrief(corner.design.corner, travel, lock, figures)}
      <Binding texts={bindingTexts(corner.limitsAt(travel, lock))} />
    </>
  );
  const measured = measuredNow(pose);
  const now = measured && pair !== undefined ? measuredPair(corner, measured, pair) : undefined;
  return (
    <section ref={held} className="held-poses" aria-label="Held poses">
      <table>
        <thead>
          <tr>
            <th scope="col">Held</th>
            <th scope="col">Pose</th>
            <th scope="col">
              {pair === undefined
                ? 'Choose a pair to compare'
                : `${pairLabel(corner.solids, corner.pairs[pair])}, ${unit}`}
            </th>
            <th
              scope="col"
              title="Clearance now minus clearance at the held pose. The error is the sum of both errors."
            >
              {pair !== undefined && `Now minus held, ${unit}`}
            </th>
            <th scope="col">
              <span className="unseen">Actions</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {state.poses.map(({ letter, travelMm: travel, steer: lock }) => {
            const result = heldResult(state, corner, letter);
            const held =
              result?.measured && pair !== undefined
                ? measuredPair(corner, result.measured, pair)
                : undefined;
            return (
              <tr key={letter}>
                <th scope="row">{letter}</th>
                <td>{briefOf(travel, lock)}</td>
                <td>
                  {result?.failure !== undefined ? (
                    <span className="warning">{result.failure}</span>
                  ) : result?.measured === undefined ? (
                    'measuring'
                  ) : (
                    pair !== undefined && <Clearance found={held} text={textOf(held)} />
                  )}
                </td>
                <td>{pair !== undefined && (differenceText(now, held, figures) ?? '?')}</td>
                <td>
                  <button
                    type="button"
                    aria-label={`Go to held pose ${letter}`}
                    onClick={() => {
                      usePose.setState({ playing: false });
                      session.moveTo(travel, lock);
                    }}
                  >
                    Go to
                  </button>
                  <button
                    type="button"
                    className="quiet"
                    aria-label={`Remove held pose ${letter}`}
                    onClick={() => {
                      releasePose(letter);
                      document.getElementById(HOLD_BUTTON_ID)?.focus();
                    }}
                  >
                    <span className="wide">Remove</span>
                    <span className="narrow">✕</span>
                  </button>
                </td>
              </tr>
            );
          })}
          <tr>
            <th scope="row">Now</th>
            <td>{briefOf(travelMm, steer)}</td>
            <td>
              {pair !== undefined && (measured ? <Clearance found={now} text={textOf(now)} /> : 'measuring')}
            </td>
            <td />
            <td />
          </tr>
        </tbody>
      </table>
    </section>
  );
}

/** The joints and dampers that bind at a pose. */
function Binding({ texts }: { texts: readonly string[] }) {
  return texts.map((text) => (
    <Fragment key={text}>
      {' '}
      <StateMark state="binds" /> <b>{text}</b>
    </Fragment>
  ));
}

interface ClearanceProps {
  found: MeasuredPair | undefined;
  /** Its state, then its clearance if there is a number. */
  text: readonly [state: string, clearance: string | undefined];
}

function Clearance({ found, text: [state, clearance] }: ClearanceProps) {
  if (found === undefined) return 'unknown';
  return (
    <>
      <StateMark state={found.state} /> <b>{state}</b>
      {clearance !== undefined && ` ${clearance}`}
    </>
  );
}
