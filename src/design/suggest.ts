import { closest, distance } from 'fastest-levenshtein';

/** ` Did you mean "height"?` for the nearest of `known`, if one is near; else empty. */
export function suggest(found: string, known: readonly string[]): string {
  const candidates = known.filter((name) => name !== found);
  if (candidates.length === 0 || found.length > 60) return '';
  const lower = found.toLowerCase();
  const best = closest(
    lower,
    candidates.map((name) => name.toLowerCase()),
  );
  // Two swapped letters count as two changes. In a name of three letters, two changes would match almost any name.
  const allowed = found.length <= 3 ? 1 : Math.max(2, Math.floor(found.length / 3));
  const near = distance(lower, best) <= allowed;
  const name = candidates.find((candidate) => candidate.toLowerCase() === best);
  return near && name !== undefined ? ` Did you mean "${name}"?` : '';
}
