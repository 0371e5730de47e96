import { pairLabelFrom } from '../sweep/pair.ts';

/** The indices of two solids. */
interface Two {
  a: number;
  b: number;
}

/**
 * Names pairs in as few lines as they allow: "Mount ↔ Rail" for one pair, "Mount with Rail, Brace" for pairs of one part, and
 * "each two of: Mount, Rail, Brace", with "except" and the pairs that are missing, if these are fewer than the pairs.
 */
export function pairsInFewLines(solids: readonly { label: string }[], pairs: readonly Two[]): string[] {
  const parts = [...new Set(pairs.flatMap(({ a, b }) => [a, b]))].sort((a, b) => a - b);
  const partners = partnersOf(pairs);
  const missing = parts.flatMap((a, k) =>
    parts.slice(k + 1).flatMap((b) => (partners.get(a)?.has(b) === true ? [] : [{ a, b }])),
  );
  const labelOf = (solid: number) => solids[solid].label;
  if (pairs.length < 3 || missing.length >= pairs.length)
    return [...partners].map(([a, others]) =>
      others.size === 1
        ? pairLabelFrom(labelOf(a), labelOf([...others][0]))
        : `${labelOf(a)} with ${[...others].map(labelOf).join(', ')}`,
    );
  const all = `each two of: ${parts.map(labelOf).join(', ')}`;
  return missing.length === 0 ? [all] : [`${all}; except ${pairsInFewLines(solids, missing).join('; ')}`];
}

/** For each part, in order, the later parts that it makes a pair with. */
function partnersOf(pairs: readonly Two[]): ReadonlyMap<number, ReadonlySet<number>> {
  const found = new Map<number, Set<number>>();
  const ordered = pairs
    .map(({ a, b }) => [Math.min(a, b), Math.max(a, b)] as const)
    .sort(([a, b], [c, d]) => a - c || b - d);
  for (const [a, b] of ordered) found.set(a, (found.get(a) ?? new Set()).add(b));
  return found;
}
