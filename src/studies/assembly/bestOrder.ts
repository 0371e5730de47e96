import { type Fitted, orderOf, type Precedence } from './order.ts';

/** An order that satisfies as many requirements as possible, each by one of its options. */
export interface BestOrder {
  steps: readonly Fitted[];
  changes: readonly { id: string; from: number; to: number }[];
  /** For each requirement, the index of the option that the order satisfies; undefined if it satisfies none. */
  kept: readonly (number | undefined)[];
  /**
   * For each unsatisfied requirement, a cycle of precedences that excludes its first option next to the requirements
   * before it.
   */
  cycles: ReadonlyMap<number, readonly Precedence[]>;
}

/** The precedences of some requirements, and the option chosen for each. */
interface Choice {
  precedences: readonly Precedence[];
  kept: readonly (number | undefined)[];
  order: Extract<ReturnType<typeof orderOf>, { kind: 'found' }>;
}

/**
 * The order nearest to the given steps that satisfies the precedences `always` and, in their order, every requirement
 * that can still be satisfied. A requirement is satisfied by any one of its options; an option is a list of
 * precedences. All combinations of options are followed, so a requirement is dropped only if no option fits those
 * before it. Throws a RangeError if `always` contains a cycle with a strict precedence.
 */
export function bestOrder(
  items: readonly Fitted[],
  always: readonly Precedence[],
  requirements: readonly (readonly (readonly Precedence[])[])[],
): BestOrder {
  const first = orderOf(items, always);
  if (first.kind === 'none')
    throw new RangeError('the fixed precedences contain a cycle, so no assembly order exists');
  let choices: Choice[] = [{ precedences: [], kept: [], order: first }];
  const cycles = new Map<number, readonly Precedence[]>();
  requirements.forEach((options, requirement) => {
    const next = new Map<string, Choice>();
    let cycle: readonly Precedence[] | undefined;
    for (const choice of choices)
      options.forEach((option, index) => {
        const precedences = [...choice.precedences, ...option];
        const key = keyOf(precedences);
        if (next.has(key)) return;
        const order = option.length === 0 ? choice.order : orderOf(items, [...always, ...precedences]);
        if (order.kind === 'none') cycle ??= order.cycle;
        else next.set(key, { precedences, kept: [...choice.kept, index], order });
      });
    if (next.size > 0) choices = [...next.values()];
    else {
      if (cycle !== undefined) cycles.set(requirement, cycle);
      choices = choices.map((choice) => ({ ...choice, kept: [...choice.kept, undefined] }));
    }
  });
  const delay = ({ order: { changes } }: Choice) => changes.reduce((sum, { from, to }) => sum + to - from, 0);
  const best = choices.reduce((a, b) => (delay(b) < delay(a) ? b : a));
  return { steps: best.order.steps, changes: best.order.changes, kept: best.kept, cycles };
}

/** Key of a choice by its precedences, without their reasons. */
const keyOf = (precedences: readonly Precedence[]): string =>
  [...new Set(precedences.map(({ earlier, later, strict }) => JSON.stringify([earlier, later, strict])))]
    .toSorted()
    .join();
