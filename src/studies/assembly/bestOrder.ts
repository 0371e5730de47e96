import { type Fitted, orderOf, type Precedence } from './order.ts';

/** An order that keeps as many wants as it can, each by one of its options. */
export interface BestOrder {
  steps: readonly Fitted[];
  changes: readonly { id: string; from: number; to: number }[];
  /** Of each want, the option that the order keeps, by its index; undefined where it keeps none. */
  kept: readonly (number | undefined)[];
  /** Of each want that it does not keep, a ring of reasons why its first option cannot be had beside the wants before it. */
  rings: ReadonlyMap<number, readonly Precedence[]>;
}

/** What has to come before what, for some of the wants, and which option of each. */
interface Choice {
  precedences: readonly Precedence[];
  kept: readonly (number | undefined)[];
  order: Extract<ReturnType<typeof orderOf>, { kind: 'found' }>;
}

/**
 * The order nearest to the given steps that keeps what always holds and, of the wants taken one after another, every one that
 * can still be kept. A want is kept by any one of its options, each of them all that has to come before something else. All
 * choices of options are followed, so that a want is given up only where none has it beside those before. `always` must not
 * hold a ring with a strict precedence: throws a RangeError.
 */
export function bestOrder(
  things: readonly Fitted[],
  always: readonly Precedence[],
  wants: readonly (readonly (readonly Precedence[])[])[],
): BestOrder {
  const first = orderOf(things, always);
  if (first.kind === 'none') throw new RangeError('what always holds leaves no order');
  let choices: Choice[] = [{ precedences: [], kept: [], order: first }];
  const rings = new Map<number, readonly Precedence[]>();
  wants.forEach((options, want) => {
    const next = new Map<string, Choice>();
    let ring: readonly Precedence[] | undefined;
    for (const choice of choices)
      options.forEach((option, index) => {
        const precedences = [...choice.precedences, ...option];
        const key = keyOf(precedences);
        if (next.has(key)) return;
        const order = option.length === 0 ? choice.order : orderOf(things, [...always, ...precedences]);
        if (order.kind === 'none') ring ??= order.cycle;
        else next.set(key, { precedences, kept: [...choice.kept, index], order });
      });
    if (next.size > 0) choices = [...next.values()];
    else {
      if (ring !== undefined) rings.set(want, ring);
      choices = choices.map((choice) => ({ ...choice, kept: [...choice.kept, undefined] }));
    }
  });
  const later = ({ order: { changes } }: Choice) => changes.reduce((sum, { from, to }) => sum + to - from, 0);
  const best = choices.reduce((a, b) => (later(b) < later(a) ? b : a));
  return { steps: best.order.steps, changes: best.order.changes, kept: best.kept, rings };
}

/** Tells choices apart by what they ask for, not by why. */
const keyOf = (precedences: readonly Precedence[]): string =>
  [...new Set(precedences.map(({ earlier, later, strict }) => JSON.stringify([earlier, later, strict])))]
    .toSorted()
    .join();
