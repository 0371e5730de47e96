import { type RefObject, useEffect } from 'react';

/** Scrolls the first match of `selector` within an element into view whenever `key` changes and is defined. */
export function useScrollIntoView(within: RefObject<Element | null>, selector: string, key: unknown): void {
  useEffect(() => {
    if (key !== undefined) within.current?.querySelector(selector)?.scrollIntoView({ block: 'nearest' });
  }, [within, selector, key]);
}
