import { Fragment, useRef } from 'react';
import { figuresIn } from '../../report/figures.ts';
import type { OpenCorner } from '../engine.ts';
import { StateMark } from '../panels/StateMark.tsx';
import { useInView } from '../panels/useInView.ts';
import { useSession } from '../session.ts';
import { type MeasuredPair, measuredPair } from '../stores/measuredPair.ts';
import { measuredNow, usePose } from '../stores/poseStore.ts';
import { usePoseSlowly } from '../stores/usePoseSlowly.ts';
import { useView } from '../stores/viewStore.ts';
import { bindingTexts, pairLabel, poseBrief, stateText } from '../words.ts';
import { clearanceText, differenceText } from './clearanceText.ts';
import { HOLD_BUTTON_ID } from './HoldButton.tsx';
import { knownOf, letGo, useHold } from './holdStore.ts';
import { useHeldMeasured } from './useHeldMeasured.ts';

/** The poses held, and how the pair in hand fares at each of them and now. */
export function HeldPoses({ corner }: { corner: OpenCorner }) {
  useHeldMeasured(corner);
  const session = useSession();
  const state = useHold();
  const { pair, unit } = useView();
  const pose = usePoseSlowly();
  const { travelMm, steer } = pose;
  const held = useRef<HTMLElement>(null);
  useInView(held, 'tbody tr:nth-last-child(2)', state.poses.at(-1)?.letter);
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
            <th scope="col" title="Clearance now, less that at the held pose; the errors of both add up">
              {pair !== undefined && `Now less held, ${unit}`}
            </th>
            <th scope="col">
              <span className="unseen">Go to it or let go</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {state.poses.map(({ letter, travelMm: travel, steer: lock }) => {
            const known = knownOf(state, corner, letter);
            const held =
              known?.measured && pair !== undefined ? measuredPair(corner, known.measured, pair) : undefined;
            return (
              <tr key={letter}>
                <th scope="row">{letter}</th>
                <td>{briefOf(travel, lock)}</td>
                <td>
                  {known?.failure !== undefined ? (
                    <span className="warning">{known.failure}</span>
                  ) : known?.measured === undefined ? (
                    'being measured'
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
                    aria-label={`Let go of held pose ${letter}`}
                    onClick={() => {
                      letGo(letter);
                      document.getElementById(HOLD_BUTTON_ID)?.focus();
                    }}
                  >
                    <span className="wide">Let go</span>
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
              {pair !== undefined &&
                (measured ? <Clearance found={now} text={textOf(now)} /> : 'being measured')}
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
  /** Its state in words, then its clearance where it has a number. */
  text: readonly [state: string, clearance: string | undefined];
}

function Clearance({ found, text: [state, clearance] }: ClearanceProps) {
  if (found === undefined) return 'cannot be told';
  return (
    <>
      <StateMark state={found.state} /> <b>{state}</b>
      {clearance !== undefined && ` ${clearance}`}
    </>
  );
}
