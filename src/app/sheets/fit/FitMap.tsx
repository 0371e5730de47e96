import { type KeyboardEvent, type PointerEvent, useLayoutEffect, useRef } from 'react';
import { clockingsInWords, marginInWords, type NameOf } from '../../../report/clocking/clockingWords.ts';
import { figuresIn } from '../../../report/figures.ts';
import { type SpanState, wrapDeg } from '../../../studies/clocking/spans.ts';
import type { Clockings } from '../../../studies/clocking/studyPairs.ts';
import { useTokens } from '../../kit/tokens.ts';
import { useSize } from '../../kit/useSize.ts';
import { useView } from '../../state/viewStore.ts';
import {
  cellAt,
  clockingAt,
  type FitCell,
  type FitPicture,
  fractionAt,
} from '../../workers/fit/fitPicture.ts';
import { drawFitMap } from './drawFitMap.ts';

interface FitMapProps {
  picture: FitPicture;
  nameOf: NameOf;
  drawn: Clockings;
  /** Candidates of the shown mounting, with their rank among all. */
  candidates: readonly (Clockings & { rank: number })[];
  /** `hold`: merge key of a drag, whose steps are one change. */
  onTurn(to: Clockings, hold: string | undefined): void;
}

/** Step of Shift with an arrow key, degrees. */
const LARGE_DEG = 10;

let holds = 0;

/** Map of the margin over caliper clocking (across) and hub clocking (up). A press or drag turns both. */
export function FitMap({ picture, nameOf, drawn, candidates, onTurn }: FitMapProps) {
  const tokens = useTokens();
  const unit = useView((view) => view.unit);
  const [frame, size] = useSize<HTMLDivElement>();
  const canvas = useRef<HTMLCanvasElement>(null);
  const hold = useRef<string>(undefined);
  useLayoutEffect(() => {
    const px = Math.round(size.width * (window.devicePixelRatio || 1));
    const context = canvas.current?.getContext('2d', { willReadFrequently: true });
    if (!canvas.current || !context || px === 0) return;
    canvas.current.width = px;
    canvas.current.height = px;
    drawFitMap(context, px, picture, tokens);
  }, [picture, size.width, tokens]);

  const place = ({ caliperDeg, hubDeg }: Clockings) => ({
    x: fractionAt(caliperDeg) * size.width,
    y: (1 - fractionAt(hubDeg)) * size.width,
  });
  const onPointer = (event: PointerEvent<HTMLDivElement>) => {
    if (event.type === 'pointerdown') {
      event.currentTarget.setPointerCapture(event.pointerId);
      hold.current = `turned on the map ${++holds}`;
    } else if (!event.currentTarget.hasPointerCapture(event.pointerId)) return;
    const box = event.currentTarget.getBoundingClientRect();
    const caliperDeg = clockingAt((event.clientX - box.left) / box.width);
    const hubDeg = clockingAt((box.bottom - event.clientY) / box.height);
    onTurn({ caliperDeg, hubDeg }, hold.current);
  };
  const onKey = (event: KeyboardEvent) => {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    const by = event.shiftKey ? LARGE_DEG : 1;
    const moves: Record<string, readonly [number, number]> = {
      ArrowRight: [by, 0],
      ArrowLeft: [-by, 0],
      ArrowUp: [0, by],
      ArrowDown: [0, -by],
    };
    const move = moves[event.key];
    if (move === undefined) return;
    event.preventDefault();
    const to = { caliperDeg: wrapDeg(drawn.caliperDeg + move[0]), hubDeg: wrapDeg(drawn.hubDeg + move[1]) };
    onTurn(to, undefined);
  };
  const cellText = cellInWords(cellAt(picture, drawn), nameOf, unit);
  const at = place(drawn);
  return (
    <div className="fit-map">
      <span className="fit-up">hub</span>
      <div
        ref={frame}
        className="fit-pad"
        role="slider"
        tabIndex={0}
        aria-label="Clocking of caliper and hub"
        aria-roledescription="two-way slider"
        aria-valuemin={-180}
        aria-valuemax={179}
        aria-valuenow={Math.round(wrapDeg(drawn.caliperDeg))}
        aria-valuetext={`${clockingsInWords(drawn)}: ${cellText}`}
        onPointerDown={onPointer}
        onPointerMove={onPointer}
        onKeyDown={onKey}
      >
        <canvas ref={canvas} />
        <svg width={size.width} height={size.width} aria-hidden="true">
          {candidates.map((candidate) => {
            const { x, y } = place(candidate);
            return (
              <g key={`${candidate.caliperDeg} ${candidate.hubDeg}`} transform={`translate(${x} ${y})`}>
                <circle className="fit-candidate" r={8} />
                <text className="fit-rank" dominantBaseline="central" textAnchor="middle">
                  {candidate.rank}
                </text>
              </g>
            );
          })}
          <g className="map-cross">
            <path d={`M${at.x} 0V${size.width}`} />
            <path d={`M0 ${at.y}H${size.width}`} />
            <circle r={4.5} transform={`translate(${at.x} ${at.y})`} />
          </g>
        </svg>
      </div>
      <span className="fit-from">−180°</span>
      <span className="fit-across">caliper</span>
      <span className="fit-to">180°</span>
    </div>
  );
}

const STATE_WORDS: Record<SpanState, string> = {
  clears: 'clear',
  fails: 'not clear',
  unsettled: 'undecided',
};

/** State and margin of a clocking, with the pair that limits it. */
export function cellInWords(
  { least, state, isWanted, isProved }: FitCell,
  nameOf: NameOf,
  unit: 'mm' | 'in',
): string {
  if (!isProved) {
    const preview =
      state === 'unsettled' ? 'undecided so far' : `seems ${STATE_WORDS[state]}, not proved yet`;
    return `${preview}${isWanted ? '' : ', not as required'}`;
  }
  const margin = marginInWords(nameOf, least, figuresIn(unit));
  return `${STATE_WORDS[state]}, margin ${margin}${isWanted ? '' : ', not as required'}`;
}
