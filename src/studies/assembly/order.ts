/** An item put on in one piece: a part or a set of bolts. */
export interface Fitted {
  id: string;
  /** Step of assembly, from 0. Items of the same step are put on together. */
  step: number;
}

/**
 * One item comes before another, for a reason. `strict`: in an earlier step; otherwise in the same or an earlier
 * step.
 */
export interface Precedence {
  earlier: string;
  later: string;
  strict: boolean;
  why: string;
}

export type AssemblyOrder =
  /** Steps that satisfy every precedence: each item in its own step or, if it has to wait, in a later one. */
  | { kind: 'found'; steps: readonly Fitted[]; changes: readonly { id: string; from: number; to: number }[] }
  /** No order exists: each precedence of the cycle leads to the next, and the last to the first. */
  | { kind: 'none'; cycle: readonly Precedence[] };

/**
 * The assembly steps nearest to the given ones that satisfy every precedence: no item is moved earlier, and none
 * later than necessary. No order exists if a strict precedence is part of a cycle. Throws a RangeError for a
 * precedence of an unknown item.
 */
export function orderOf(items: readonly Fitted[], precedences: readonly Precedence[]): AssemblyOrder {
  const steps = new Map(items.map(({ id, step }) => [id, step]));
  for (const { earlier, later } of precedences)
    for (const id of [earlier, later])
      if (!steps.has(id)) throw new RangeError(`"${id}" is not a part or a set of bolts of this assembly`);
  const cycle = strictCycle(items, precedences);
  if (cycle !== undefined) return { kind: 'none', cycle };
  // Without such a cycle an item waits for at most all others, so the loop ends.
  for (let moved = true; moved; ) {
    moved = false;
    for (const { earlier, later, strict } of precedences) {
      const least = (steps.get(earlier) as number) + (strict ? 1 : 0);
      if ((steps.get(later) as number) >= least) continue;
      steps.set(later, least);
      moved = true;
    }
  }
  const found = items.map(({ id }) => ({ id, step: steps.get(id) as number }));
  return {
    kind: 'found',
    steps: found.toSorted((a, b) => a.step - b.step),
    changes: items
      .map(({ id, step }) => ({ id, from: step, to: steps.get(id) as number }))
      .filter(({ from, to }) => from !== to),
  };
}

/** The shortest cycle of precedences that contains a strict one; undefined if there is none. */
function strictCycle(
  items: readonly Fitted[],
  precedences: readonly Precedence[],
): readonly Precedence[] | undefined {
  const leaving = new Map(items.map(({ id }) => [id, precedences.filter(({ earlier }) => earlier === id)]));
  let shortest: Precedence[] | undefined;
  for (const start of precedences.filter(({ strict }) => strict)) {
    const back = chainBetween(leaving, start.later, start.earlier);
    if (back !== undefined && (shortest === undefined || back.length + 1 < shortest.length))
      shortest = [start, ...back];
  }
  return shortest;
}

/**
 * The shortest chain of precedences from one item to another; empty if both are the same, undefined if there is none.
 */
function chainBetween(
  leaving: ReadonlyMap<string, readonly Precedence[]>,
  from: string,
  to: string,
): Precedence[] | undefined {
  const chains = new Map<string, Precedence[]>([[from, []]]);
  for (const [id, chain] of chains) {
    if (id === to) return chain;
    for (const one of leaving.get(id) ?? [])
      if (!chains.has(one.later)) chains.set(one.later, [...chain, one]);
  }
  return undefined;
}
