/** Something that is put on in one piece: a part, or a set of bolts. */
export interface Fitted {
  id: string;
  /** Step of assembly, from 0 on. What has the same step is there together. */
  step: number;
}

/** That one thing comes before another, and why. `strict`: in an earlier step, else in the same or an earlier one. */
export interface Precedence {
  earlier: string;
  later: string;
  strict: boolean;
  why: string;
}

export type AssemblyOrder =
  /** Steps that keep every precedence: each thing in its own or, where it has to wait, in a later one. */
  | { kind: 'found'; steps: readonly Fitted[]; changes: readonly { id: string; from: number; to: number }[] }
  /** No order does: each of these has to come before the next, and the last before the first. */
  | { kind: 'none'; cycle: readonly Precedence[] };

/**
 * The steps of assembly nearest to the given ones that keep every precedence: no thing is put earlier, and none later than
 * it must. A precedence of a thing before itself, or a ring of them of which one is strict, leaves no order. Throws a
 * RangeError for a precedence of something that is not among the things.
 */
export function orderOf(things: readonly Fitted[], precedences: readonly Precedence[]): AssemblyOrder {
  const steps = new Map(things.map(({ id, step }) => [id, step]));
  for (const { earlier, later } of precedences)
    for (const id of [earlier, later])
      if (!steps.has(id)) throw new RangeError(`"${id}" is not among what is put together`);
  const cycle = strictCycle(things, precedences);
  if (cycle !== undefined) return { kind: 'none', cycle };
  // Without such a ring each thing waits for no more others than there are, so that this comes to rest.
  for (let moved = true; moved; ) {
    moved = false;
    for (const { earlier, later, strict } of precedences) {
      const least = (steps.get(earlier) as number) + (strict ? 1 : 0);
      if ((steps.get(later) as number) >= least) continue;
      steps.set(later, least);
      moved = true;
    }
  }
  const found = things.map(({ id }) => ({ id, step: steps.get(id) as number }));
  return {
    kind: 'found',
    steps: found.toSorted((a, b) => a.step - b.step),
    changes: things
      .map(({ id, step }) => ({ id, from: step, to: steps.get(id) as number }))
      .filter(({ from, to }) => from !== to),
  };
}

/** The shortest ring of precedences with a strict one in it; undefined where there is none. */
function strictCycle(
  things: readonly Fitted[],
  precedences: readonly Precedence[],
): readonly Precedence[] | undefined {
  const leaving = new Map(things.map(({ id }) => [id, precedences.filter(({ earlier }) => earlier === id)]));
  let shortest: Precedence[] | undefined;
  for (const start of precedences.filter(({ strict }) => strict)) {
    const back = wayBetween(leaving, start.later, start.earlier);
    if (back !== undefined && (shortest === undefined || back.length + 1 < shortest.length))
      shortest = [start, ...back];
  }
  return shortest;
}

/** The fewest precedences that lead from one thing to another; none where both are one. */
function wayBetween(
  leaving: ReadonlyMap<string, readonly Precedence[]>,
  from: string,
  to: string,
): Precedence[] | undefined {
  const ways = new Map<string, Precedence[]>([[from, []]]);
  for (const [id, way] of ways) {
    if (id === to) return way;
    for (const one of leaving.get(id) ?? []) if (!ways.has(one.later)) ways.set(one.later, [...way, one]);
  }
  return undefined;
}
