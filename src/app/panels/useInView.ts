import { type RefObject, useEffect } from 'react';

/** Scrolls what `selector` finds within an element into view each time that `what` changes; not while it is undefined. */
export function useInView(within: RefObject<Element | null>, selector: string, what: unknown): void {
  useEffect(() => {
    if (what !== undefined) within.current?.querySelector(selector)?.scrollIntoView({ block: 'nearest' });
  }, [within, selector, what]);
}
