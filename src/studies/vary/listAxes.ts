import { withGiven } from '../../design/assumed.ts';
import type { Path } from '../../design/path.ts';
import { valueAt } from '../../design/path.ts';
import { parseLength } from '../../units/parseLength.ts';
import { type Axis, type AxisValue, MAX_VALUES } from './axis.ts';

/** Label and measured dimensions of the replaced tyre, which do not apply to another. */
const REPLACED_TYRE_FIELDS = ['label', 'overallDiameter', 'sectionWidth', 'treadWidth'];
/** Label, offset and measured inside of the replaced wheel. */
const REPLACED_WHEEL_FIELDS = ['label', 'offset', 'innerBarrel'];

/**
 * An axis of the tyres of a list, one designation on each line; blank lines and lines that begin with # are skipped.
 * Each replaces the corner's tyre without its measured diameter and widths: the size is the nominal one of the
 * designation. Throws an Error if the corner has no tyre or the list is empty.
 */
export function tyreAxis(source: unknown, list: string): Axis {
  const tyre = pathOfKind(source, 'tyre');
  const values = linesOf(list, 'tyre').map(
    ({ text }): AxisValue => ({
      label: text,
      change: (file) => withGiven(without(file, tyre, REPLACED_TYRE_FIELDS), [...tyre, 'designation'], text),
    }),
  );
  return { title: 'tyre', values, part: tyre[1] };
}

const WHEEL_FORM = 'write diameter x width x backspacing, such as "17x9x5 1/2" or "17 x 8.5 x 140 mm"';

/**
 * An axis of the wheels of a list, diameter x width x backspacing on each line, in inches if no unit is typed;
 * otherwise as for tyres. Each replaces the corner's wheel without its measured inside and offset; wall, spokes and
 * all other values stay. Throws an Error that names the line and the mistake.
 */
export function wheelAxis(source: unknown, list: string): Axis {
  const wheel = pathOfKind(source, 'wheel');
  const values = linesOf(list, 'wheel').map(({ text, line }): AxisValue => {
    const { diameterCode, widthMm, backspacingMm } = readWheel(text, line);
    return {
      label: text,
      change: (file) =>
        Object.entries({ diameterCode, width: widthMm, backspacing: backspacingMm }).reduce(
          (changed, [key, value]) => withGiven(changed, [...wheel, key], value),
          without(file, wheel, REPLACED_WHEEL_FIELDS),
        ),
    };
  });
  return { title: 'wheel', values, part: wheel[1] };
}

function readWheel(text: string, line: number) {
  const wrong = (why: string): never => {
    throw new Error(`line ${line}, "${text}": ${why}; ${WHEEL_FORM}`);
  };
  const parts = text.split(/\s*[x×]\s*/i);
  if (parts.length !== 3) wrong(`must have 3 dimensions, not ${parts.length}`);
  const diameterCode = /^\d{1,2}$/.test(parts[0])
    ? Number(parts[0])
    : wrong(`"${parts[0]}" is not a rim diameter in whole inches`);
  const lengthMm = (typed: string): number => {
    try {
      return parseLength(typed, { unit: 'in' }).mm;
    } catch (error) {
      return wrong((error as Error).message);
    }
  };
  return { diameterCode, widthMm: lengthMm(parts[1]), backspacingMm: lengthMm(parts[2]) };
}

function linesOf(list: string, what: string): { text: string; line: number }[] {
  const lines = list
    .split(/\r\n?|\n/)
    .map((text, index) => ({ text: text.trim(), line: index + 1 }))
    .filter(({ text }) => text !== '' && !text.startsWith('#'));
  if (lines.length === 0) throw new Error(`the list holds no ${what}; write one on each line`);
  if (lines.length > MAX_VALUES)
    throw new Error(`the list holds ${lines.length} ${what}s; at most ${MAX_VALUES} are allowed`);
  return lines;
}

function pathOfKind(source: unknown, kind: string): ['parts', number] {
  const parts = valueAt(source, ['parts']);
  const index = Array.isArray(parts) ? parts.findIndex((_, p) => valueAt(parts, [p, 'kind']) === kind) : -1;
  if (index < 0) throw new Error(`the corner has no ${kind} to replace`);
  return ['parts', index];
}

const without = (source: unknown, part: Path, keys: readonly string[]): unknown =>
  keys.reduce(
    (left, key) =>
      valueAt(left, [...part, key]) === undefined ? left : withGiven(left, [...part, key], undefined),
    source,
  );
