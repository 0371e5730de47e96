import { useEffect, useId, useRef } from 'react';
import { useOwnTouches } from '../ownTouches.ts';
import { type Axis, fractionOf } from '../pad/axis.ts';
import { ticks } from '../pad/ticks.ts';
import { usePose } from '../stores/poseStore.ts';
import { useView } from '../stores/viewStore.ts';
import { useSize } from '../useSize.ts';
import { levels } from './levels.ts';
import { bandPath, chartRange, linePath, type Series } from './series.ts';
import { usePosing } from './usePosing.ts';

interface ChartProps {
  against: 'travel' | 'steer';
  /** Where the other of travel and steer stands. */
  at: string;
  axis: Axis;
  /** Places of the swept steps on the axis, mm. */
  stepsMm: readonly number[];
  /** Words at the ends of the axis. */
  ends: readonly [string, string];
  series: readonly Series[];
  /** What each pair keeps between two steps, mm. */
  bands: ReadonlyMap<number, readonly number[]>;
  /** Pairs that stay on the charts when another is in hand. */
  kept: readonly number[];
  canKeep: boolean;
  onKeep(pair: number): void;
  nameOf(pair: number): string;
  /** What it measures at the pose in hand, in words. */
  readingOf(pair: number): string;
  targetMm(pair: number): number;
  /** Of the pose as it stands, mm along the axis. */
  value(): number;
  onMove(mm: number): void;
}

const LEFT = 42;
const RIGHT = 12;
const TOP = 8;
const BOTTOM = 20;
/** Nearer to an end of the axis than this leaves, 0 would stand in the words there. */
const ZERO_WITHIN = 0.15;

/**
 * Clearance against one of travel and steer: contact and target as lines, the band that is proved between steps, the pose
 * as a cursor. A pointer over it poses the corner for a look; pressed, it stays.
 */
export function Chart(props: ChartProps) {
  const { against, at, axis, stepsMm, ends, series, bands, nameOf, readingOf, targetMm, value, onMove } =
    props;
  const title = `Clearance against ${against}`;
  const [frame, { width, height }] = useSize<HTMLDivElement>();
  useOwnTouches(frame);
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
  const follow = () => {
    const place = latest.current.x(latest.current.value());
    cursor.current?.setAttribute('d', `M${place.toFixed(1)} ${TOP}v${plot.height}`);
  };
  useEffect(follow);
  useEffect(() => usePose.subscribe(follow));

  const posing = usePosing((px) => (px - LEFT) / plot.width, axis, onMove);

  const targets = [...new Set(series.map(({ pair }) => targetMm(pair)))];
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
      <div ref={frame} className="chart-plot" {...posing}>
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
          {ticks(axis.fromMm, axis.toMm, plot.width, unit)
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
              <text x={LEFT + plot.width - 3} y={y(targets[0]) - 4} textAnchor="end">
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

/** A pair stays on the charts, or goes with the choice of another. */
function KeepButton({ pair, kept, canKeep, onKeep, nameOf }: ChartProps & { pair: number }) {
  const isKept = kept.includes(pair);
  if (!isKept && !canKeep) return null;
  return (
    <button
      type="button"
      className="chart-keep"
      aria-pressed={isKept}
      aria-label={`Keep ${nameOf(pair)} on the charts`}
      title="Keep on the charts while other pairs are looked at"
      onClick={() => onKeep(pair)}
    >
      keep
    </button>
  );
}
