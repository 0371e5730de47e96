import { type FocusEvent, useState } from 'react';

/** Help text of an element, from its row or the group around it; empty if it has none. */
const helpOf = (element: Element): string =>
  element.closest<HTMLElement>(':is(.bench-row, .bench-triple, .bench-group)[title]')?.title ?? '';

/**
 * Help text of the focused field, for users who cannot hover; spread `watch` on the container of the fields. The help stays
 * when the focus leaves the fields or moves to a button: if it disappeared, the button would move from under the pointer.
 */
export function useFieldHelp() {
  const [help, setHelp] = useState('');
  const watch = {
    onFocus: ({ target }: FocusEvent<HTMLElement>) => {
      if (target instanceof HTMLButtonElement) return;
      setHelp(helpOf(target));
      // The help takes room below the fields: then the field's slider may be out of sight.
      requestAnimationFrame(() =>
        target.closest('.bench-row')?.querySelector('.bench-slider')?.scrollIntoView({ block: 'nearest' }),
      );
    },
  };
  return { help, watch };
}
