/** A pose change by a pointer, or the measurement of a pose. */
type Kind = 'move' | 'measured';

/** Whether the graphics card is still drawing the last frame of the corner. */
let isDrawing = false;
/** Whether a pointer drags the pose. */
let isDragging = false;
const pending = new Map<Kind, () => void>();

/** Call when a frame of the corner is submitted, and when the graphics card has finished it. */
export function setDrawing(is: boolean): void {
  isDrawing = is;
  if (!is) applyPending();
}

/** Call when a pointer starts to drag the pose, and when the drag ends; the end applies pending changes. */
export function setDragging(is: boolean): void {
  isDragging = is;
  if (!is) applyPending();
}

/**
 * Applies a change at once, unless a pointer drags the pose while a frame is being drawn. In that case the change waits for
 * the end of the frame, and a newer change of the same kind replaces it. Reason: with software rendering, page updates at
 * pointer rate starve the picture (0.3 frames a second instead of 3).
 */
export function afterPicture(kind: Kind, change: () => void): void {
  pending.set(kind, change);
  if (!isDrawing || !isDragging) applyPending();
}

function applyPending(): void {
  const changes = [...pending.values()];
  pending.clear();
  for (const change of changes) change();
}
