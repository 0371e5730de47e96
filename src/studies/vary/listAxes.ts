import { withGiven } from '../../design/assumed.ts';
import type { Path } from '../../design/path.ts';
import { valueAt } from '../../design/path.ts';
import { parseLength } from '../../units/parseLength.ts';
import { type Axis, type AxisValue, MOST_VALUES } from './axis.ts';

/** What the tyre that is taken off is called, and what was measured on it: it says nothing of another. */
const OF_THE_OLD_TYRE = ['label', 'overallDiameter', 'sectionWidth', 'treadWidth'];
/** The same of the wheel that is taken off, with what places it. */
const OF_THE_OLD_WHEEL = ['label', 'offset', 'innerBarrel'];

/**
 * Tyres of a list, a designation on each line; blank lines and those that begin with # are left out. Each takes the place
 * of the corner's tyre, whose measured diameter and widths go with it: the designation says how large it is, nominally.
 * Throws an Error where the corner has no tyre or the list holds none.
 */
export function tyreAxis(source: unknown, list: string): Axis {
  const tyre = pathOfKind(source, 'tyre');
  const values = linesOf(list, 'tyre').map(
    ({ text }): AxisValue => ({
      label: text,
      change: (file) => withGiven(without(file, tyre, OF_THE_OLD_TYRE), [...tyre, 'designation'], text),
    }),
  );
  return { title: 'tyre', values, part: tyre[1] };
}

const WHEEL_FORM = 'write diameter x width x backspacing, such as "17x9x5 1/2" or "17 x 8.5 x 140 mm"';

/**
 * Wheels of a list, diameter x width x backspacing on each line, inches where no unit is typed; else as for tyres. Each
 * takes the place of the corner's wheel, whose measured inside and offset go with it; wall, spokes and all else stay.
 * Throws an Error that names the line and what is wrong with it.
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
          without(file, wheel, OF_THE_OLD_WHEEL),
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
  if (parts.length !== 3) wrong(`has ${parts.length} of 3 dimensions`);
  const diameterCode = /^\d{1,2}$/.test(parts[0])
    ? Number(parts[0])
    : wrong(`"${parts[0]}" is no rim diameter, which is a whole number of inches`);
  const inches = (typed: string): number => {
    try {
      return parseLength(typed, { unit: 'in' }).mm;
    } catch (error) {
      return wrong((error as Error).message);
    }
  };
  return { diameterCode, widthMm: inches(parts[1]), backspacingMm: inches(parts[2]) };
}

function linesOf(list: string, what: string): { text: string; line: number }[] {
  const lines = list
    .split(/\r\n?|\n/)
    .map((text, index) => ({ text: text.trim(), line: index + 1 }))
    .filter(({ text }) => text !== '' && !text.startsWith('#'));
  if (lines.length === 0) throw new Error(`the list holds no ${what}; write one on each line`);
  if (lines.length > MOST_VALUES)
    throw new Error(`the list holds ${lines.length} ${what}s; at most ${MOST_VALUES} are allowed`);
  return lines;
}

function pathOfKind(source: unknown, kind: string): ['parts', number] {
  const parts = valueAt(source, ['parts']);
  const index = Array.isArray(parts) ? parts.findIndex((_, p) => valueAt(parts, [p, 'kind']) === kind) : -1;
  if (index < 0) throw new Error(`the corner has no ${kind} that another could take the place of`);
  return ['parts', index];
}

const without = (source: unknown, part: Path, keys: readonly string[]): unknown =>
  keys.reduce(
    (left, key) =>
      valueAt(left, [...part, key]) === undefined ? left : withGiven(left, [...part, key], undefined),
    source,
  );
