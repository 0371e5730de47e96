type Key = Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'shiftKey' | 'altKey'>;

/** Undo for Ctrl or Cmd with Z, redo for Ctrl or Cmd with Shift+Z or Y; undefined for other keys. */
export function historyKey({ key, ctrlKey, metaKey, shiftKey, altKey }: Key): 'undo' | 'redo' | undefined {
  if (!(ctrlKey || metaKey) || altKey) return undefined;
  const letter = key.toLowerCase();
  if (letter === 'z') return shiftKey ? 'redo' : 'undo';
  return letter === 'y' && !shiftKey ? 'redo' : undefined;
}
