/** A file name for each id, without ending, unique on file systems that ignore case too. */
export function uniqueNames(ids: readonly string[]): string[] {
  const taken = new Set<string>();
  return ids.map((id) => {
    let name = id;
    for (let n = 2; taken.has(name.toLowerCase()); n++) name = `${id}-${n}`;
    taken.add(name.toLowerCase());
    return name;
  });
}
