/** With Shift a step is so many. */
const LARGE_STEP = 10;

type Key = Pick<KeyboardEvent, 'key' | 'shiftKey' | 'altKey' | 'ctrlKey' | 'metaKey'>;

/**
 * Steps that an arrow key asks for, up positive; 0 for any other key, and with a modifier that means something else.
 * `sideways`: right and left count as up and down, where no text is written.
 */
export function keySteps({ key, shiftKey, altKey, ctrlKey, metaKey }: Key, sideways = false): number {
  if (altKey || ctrlKey || metaKey) return 0;
  const step = shiftKey ? LARGE_STEP : 1;
  if (key === 'ArrowUp' || (sideways && key === 'ArrowRight')) return step;
  return key === 'ArrowDown' || (sideways && key === 'ArrowLeft') ? -step : 0;
}
