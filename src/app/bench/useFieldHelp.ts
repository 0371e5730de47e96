import { type FocusEvent, useState } from 'react';

/** Help of the field that has the focus, from its row or the group around it; empty if it has none. */
const helpOf = (element: Element): string =>
  element.closest<HTMLElement>(':is(.bench-row, .bench-triple, .bench-group)[title]')?.title ?? '';

/**
 * Help for the field that has the focus, for whoever cannot hover over it; `watch` goes on what holds the fields. The help
 * stays when the focus leaves the fields or goes to a button: if it went, the button would move from under the pointer.
 */
export function useFieldHelp() {
  const [help, setHelp] = useState('');
  const watch = {
    onFocus: ({ target }: FocusEvent<HTMLElement>) => {
      if (!(target instanceof HTMLButtonElement)) setHelp(helpOf(target));
    },
  };
  return { help, watch };
}
