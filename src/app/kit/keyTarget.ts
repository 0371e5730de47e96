import type { Axis } from './axis.ts';

/**
 * Value after a key press on a slider, mm: arrows move by a small step, Shift with arrows and page keys by a large one, Home
 * and End to the ends, 0 to zero. Undefined for any other key.
 */
export function keyTarget(
  { key, shiftKey }: { key: string; shiftKey: boolean },
  { fromMm, toMm }: Axis,
  mm: number,
  steps: { small: number; large: number },
): number | undefined {
  const sense = toMm >= fromMm ? 1 : -1;
  const step = shiftKey ? steps.large : steps.small;
  const moved = (by: number) =>
    Math.max(Math.min(fromMm, toMm), Math.min(Math.max(fromMm, toMm), mm + sense * by));
  switch (key) {
    case 'ArrowRight':
    case 'ArrowUp':
      return moved(step);
    case 'ArrowLeft':
    case 'ArrowDown':
      return moved(-step);
    case 'PageUp':
      return moved(steps.large);
    case 'PageDown':
      return moved(-steps.large);
    case 'Home':
      return fromMm;
    case 'End':
      return toMm;
    case '0':
      return 0;
    default:
      return undefined;
  }
}
