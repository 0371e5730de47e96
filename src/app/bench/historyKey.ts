type Key = Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'shiftKey' | 'altKey'>;

/** What a key asks of the history: Ctrl or Cmd with Z undoes, with Shift and Z or with Y redoes. */
export function historyKey({ key, ctrlKey, metaKey, shiftKey, altKey }: Key): 'undo' | 'redo' | undefined {
  if (!(ctrlKey || metaKey) || altKey) return undefined;
  const letter = key.toLowerCase();
  if (letter === 'z') return shiftKey ? 'redo' : 'undo';
  return letter === 'y' && !shiftKey ? 'redo' : undefined;
}
