/** What the browser keeps for convenience; undefined where it may keep nothing, or has kept something else. */
export function orNothing<T>(ask: () => T): T | undefined {
  try {
    return ask();
  } catch {
    return undefined;
  }
}
