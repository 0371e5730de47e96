/** Result of an access to optional browser storage; undefined if the access throws. */
export function undefinedOnError<T>(access: () => T): T | undefined {
  try {
    return access();
  } catch {
    return undefined;
  }
}
