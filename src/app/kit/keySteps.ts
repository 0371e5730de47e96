/** Steps for one key press with Shift. */
const LARGE_STEP = 10;

type Key = Pick<KeyboardEvent, 'key' | 'shiftKey' | 'altKey' | 'ctrlKey' | 'metaKey'>;

/**
 * Number of steps for an arrow key, up positive; 0 for any other key, and with Alt, Ctrl or Meta.
 * `sideways`: right and left count as up and down; only for controls without text.
 */
export function keySteps({ key, shiftKey, altKey, ctrlKey, metaKey }: Key, sideways = false): number {
  if (altKey || ctrlKey || metaKey) return 0;
  const step = shiftKey ? LARGE_STEP : 1;
  if (key === 'ArrowUp' || (sideways && key === 'ArrowRight')) return step;
  return key === 'ArrowDown' || (sideways && key === 'ArrowLeft') ? -step : 0;
}
