import { type FocusEvent, useState } from 'react';

/** What is said of the field that has the focus, by its row or by the group around it; empty where nothing is. */
const helpOf = (element: Element): string =>
  element.closest<HTMLElement>(':is(.bench-row, .bench-triple, .bench-group)[title]')?.title ?? '';

/** Help for the field that has the focus, for whoever cannot hover over it; `watch` goes on what holds the fields. */
export function useFieldHelp() {
  const [help, setHelp] = useState('');
  const watch = {
    onFocus: (event: FocusEvent<HTMLElement>) => setHelp(helpOf(event.target)),
    onBlur: (event: FocusEvent<HTMLElement>) => {
      if (!event.currentTarget.contains(event.relatedTarget)) setHelp('');
    },
  };
  return { help, watch };
}
