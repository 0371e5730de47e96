import { useEffect, useId, useRef } from 'react';
import { levels } from '../../report/curves/levels.ts';
import { bandPath, chartRange, labelEnd, linePath, type Series } from '../../report/curves/series.ts';
import { type Axis, fractionOf } from '../kit/axis.ts';
import { usePreventTouchScroll } from '../kit/preventTouchScroll.ts';
import { type RuleUnit, ticks } from '../kit/ticks.ts';
import { useSize } from '../kit/useSize.ts';
import { usePose } from '../state/poseStore.ts';
import { useView } from '../state/viewStore.ts';
import { usePosePointer } from './usePosePointer.ts';

interface ChartProps {
  against: 'travel' | 'steer';
  /** Value of the other one of travel and steer, in words. */
  at: string;
  axis: Axis;
  axisUnit: RuleUnit;
  /** Positions of the swept steps on the axis, mm or degrees. */
  stepsMm: readonly number[];
  /** Labels of the ends of the axis. */
  ends: readonly [string, string];
  series: readonly Series[];
  /** Proved lower bounds of each pair between neighbouring steps, mm. */
  bands: ReadonlyMap<number, readonly number[]>;
  /** Pairs that stay on the charts when another pair is selected. */
  kept: readonly number[];
  canKeep: boolean;
  onKeep(pair: number): void;
  nameOf(pair: number): string;
  /** Clearance of a pair at the current pose, in words. */
  readingOf(pair: number): string;
  targetMm(pair: number): number;
  /** Current position on the axis, mm or degrees. */
  value(): number;
  onMove(mm: number): void;
}

const LEFT = 42;
const RIGHT = 12;
const TOP = 8;
const BOTTOM = 20;
/** The label 0 is shown only within this distance of the middle of the axis, else it would overlap the end labels. */
const ZERO_WITHIN = 0.15;

/**
 * Clearance against travel or steer: contact and target as lines, the proved band between steps, the pose as a cursor.
 * Hovering previews a pose; pressing sets it.
 */
export function Chart(props: ChartProps) {
  const {
    against,
    at,
    axis,
    axisUnit,
    stepsMm,
    ends,
    series,
    bands,
    nameOf,
    readingOf,
    targetMm,
    value,
    onMove,
  } = props;
  const title = `Clearance against ${against}`;
  const [frame, { width, height }] = useSize<HTMLDivElement>();
  usePreventTouchScroll(frame);
  const unit = useView((view) => view.unit);
  const clip = useId();
  const cursor = useRef<SVGPathElement>(null);
  const plot = { width: Math.max(0, width - LEFT - RIGHT), height: Math.max(0, height - TOP - BOTTOM) };
  const { low, high } = chartRange(
    series,
    series.map(({ pair }) => targetMm(pair)),
  );
  const x = (mm: number) => LEFT + plot.width * fractionOf(axis, mm);
  const y = (mm: number) => TOP + plot.height * (1 - (mm - low) / (high - low));

  const latest = useRef({ value, x });
  latest.current = { value, x };
  const drawCursor = () => {
    const place = latest.current.x(latest.current.value());
    cursor.current?.setAttribute('d', `M${place.toFixed(1)} ${TOP}v${plot.height}`);
  };
  useEffect(drawCursor);
  useEffect(() => usePose.subscribe(drawCursor));

  const pointerHandlers = usePosePointer((px) => (px - LEFT) / plot.width, axis, onMove);

  const targets = [...new Set(series.map(({ pair }) => targetMm(pair)))];
  const end = labelEnd(
    series.map(({ clearanceMm }) => clearanceMm),
    targets[0],
  );
  const isLabelLeft = fractionOf(axis, stepsMm.at(end === 'first' ? 0 : -1) ?? 0) < 0.5;
  return (
    <section className="chart" aria-label={title}>
      <h2>
        <span className="chart-long">Clearance </span>
        {`against ${against}, `}
        <span className="chart-at">{at}</span>
      </h2>
      <ul className="chart-key">
        {series.map(({ pair }, i) => (
          <li key={pair}>
            <svg width="18" height="8" aria-hidden="true">
              <path className={`line line-${i}`} d="M0 4H18" />
            </svg>
            <span className="chart-pair">{nameOf(pair)}</span>
            <span className="chart-now">{readingOf(pair)}</span>
            <KeepButton {...props} pair={pair} />
          </li>
        ))}
      </ul>
      <div ref={frame} className="chart-plot" {...pointerHandlers}>
        <svg width={width} height={height} role="img" aria-label={`${title}, ${at}`}>
          <clipPath id={clip}>
            <rect x={LEFT} y={TOP} width={plot.width} height={plot.height} />
          </clipPath>
          {levels(low, high, plot.height, unit).map(({ mm, label }, i, all) => (
            <g key={mm} className="chart-level">
              <path d={`M${LEFT} ${y(mm)}h${plot.width}`} />
              <text x={LEFT - 5} y={y(mm)} dominantBaseline="central" textAnchor="end">
                {i === all.length - 1 ? `${label} ${unit}` : label}
              </text>
            </g>
          ))}
          {ticks(axis.fromMm, axis.toMm, plot.width, axisUnit)
            .filter((tick) => tick.level === 2)
            .map((tick) => (
              <path key={tick.mm} className="chart-tick" d={`M${x(tick.mm)} ${TOP + plot.height}v4`} />
            ))}
          <text className="chart-end" x={LEFT} y={height - 4}>
            {ends[0]}
          </text>
          <text className="chart-end" x={width - RIGHT} y={height - 4} textAnchor="end">
            {ends[1]}
          </text>
          {Math.abs(fractionOf(axis, 0) - 0.5) < ZERO_WITHIN && (
            <text className="chart-end" x={x(0)} y={height - 4} textAnchor="middle">
              0
            </text>
          )}
          <path className="chart-contact" d={`M${LEFT} ${y(0)}h${plot.width}`} />
          {targets.length === 1 && (
            <g className="chart-target">
              <path d={`M${LEFT} ${y(targets[0])}h${plot.width}`} />
              <text
                x={isLabelLeft ? LEFT + 3 : LEFT + plot.width - 3}
                y={y(targets[0]) - 4}
                textAnchor={isLabelLeft ? 'start' : 'end'}
              >
                target
              </text>
            </g>
          )}
          <g clipPath={`url(#${clip})`}>
            {series.map((one) => (
              <path
                key={one.pair}
                className="chart-band"
                d={bandPath(one, bands.get(one.pair) ?? [], (step) => x(stepsMm[step]), y)}
              />
            ))}
            {series.map(({ pair, clearanceMm }, i) => (
              <path
                key={pair}
                className={`line line-${i}`}
                d={linePath(clearanceMm, (step) => x(stepsMm[step]), y)}
              />
            ))}
          </g>
          <path ref={cursor} className="chart-cursor" />
        </svg>
      </div>
    </section>
  );
}

/** Toggles whether a pair stays on the charts when another pair is selected. */
function KeepButton({ pair, kept, canKeep, onKeep, nameOf }: ChartProps & { pair: number }) {
  const isKept = kept.includes(pair);
  if (!isKept && !canKeep) return null;
  return (
    <button
      type="button"
      className="chart-keep"
      aria-pressed={isKept}
      aria-label={`Keep ${nameOf(pair)} on the charts`}
      title="Keep on the charts when another pair is selected"
      onClick={() => onKeep(pair)}
    >
      keep
    </button>
  );
}
