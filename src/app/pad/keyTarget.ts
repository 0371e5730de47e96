import type { Axis } from './axis.ts';

/** Where a key moves the rider: arrows by a graduation, with shift or page keys by a large one, Home and End to the ends. */
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
