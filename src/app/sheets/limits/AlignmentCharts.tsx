import type { TitledTable } from '../../../report/limits/alignmentTables.ts';

/** Columns before the figures: travel, steering input and wheel angle. */
const BEFORE_FIGURES = 3;

/** Each figure of an alignment table as a small chart, from the least travel or steering input at the left to the largest. */
export function AlignmentCharts({ table: { titles, rows, values, along } }: { table: TitledTable }) {
  const order = values
    .map((_, row) => row)
    .sort((one, other) => (values[one][along] ?? 0) - (values[other][along] ?? 0));
  if (order.length < 2) return null;
  const ends = [order[0], order[order.length - 1]].map((row) => rows[row][along]);
  return (
    <div className="figure-charts">
      {titles.slice(BEFORE_FIGURES).map((title, k) => (
        <FigureChart
          key={title}
          title={title}
          points={order.flatMap((row) => {
            const [x, y] = [values[row][along], values[row][BEFORE_FIGURES + k]];
            return x === undefined || y === undefined ? [] : [{ x, y, shown: rows[row][BEFORE_FIGURES + k] }];
          })}
          ends={ends}
        />
      ))}
    </div>
  );
}

interface FigureChartProps {
  title: string;
  points: readonly { x: number; y: number; shown: string }[];
  /** The ends of the axis. */
  ends: readonly string[];
}

function FigureChart({ title, points, ends }: FigureChartProps) {
  const [first, last] = [points[0], points[points.length - 1]];
  const byValue = points.toSorted((one, other) => one.y - other.y);
  const [least, most] = [byValue[0], byValue[byValue.length - 1]];
  const spread = most.y - least.y || 1;
  const across = last.x - first.x || 1;
  const x = (value: number) => (100 * (value - first.x)) / across;
  const y = (value: number) => 96 - (92 * (value - least.y)) / spread;
  return (
    <figure>
      <figcaption>{title}</figcaption>
      <svg
        viewBox="0 0 100 100"
        preserveAspectRatio="none"
        role="img"
        aria-label={`${title}: ${first.shown} at ${ends[0]}, ${last.shown} at ${ends[1]}; ${least.shown} to ${most.shown}`}
      >
        {least.y < 0 && most.y > 0 && <path className="chart-zero" d={`M0 ${y(0)}H100`} />}
        <path
          d={`M${points.map((point) => `${x(point.x).toFixed(2)} ${y(point.y).toFixed(2)}`).join('L')}`}
        />
      </svg>
      <p className="figure-ends">
        <span>{first.shown}</span>
        <span>{last.shown}</span>
      </p>
    </figure>
  );
}
