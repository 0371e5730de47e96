import { useEffect } from 'react';

/** The regions of F6, in order. */
const REGIONS = '.header, .parts-panel, .side-switch, .viewer, .right-panel, .strip';
const FOCUSABLE = 'button:enabled, select:enabled, input:enabled, [tabindex="0"]';

const PLACES = [
  ['Skip to the pairs', '.pair-list'],
  ['Skip to the parts', '.parts-panel'],
  ['Skip to travel', '.rule-vertical'],
] as const;

const isVisible = (element: Element): boolean => element.getClientRects().length > 0;

/** Focuses the first focusable element in an element. Returns false if there is none. */
function enter(element: Element | null | undefined): boolean {
  const all = element == null ? [] : [element, ...element.querySelectorAll(FOCUSABLE)];
  const first = all.find((one) => one.matches(FOCUSABLE) && isVisible(one));
  if (!(first instanceof HTMLElement)) return false;
  first.focus();
  return true;
}

/** Moves the focus to the next or previous region. */
function moveToRegion(step: 1 | -1): void {
  const regions = [...document.querySelectorAll(REGIONS)].filter(isVisible);
  const at = regions.findIndex((region) => region.contains(document.activeElement));
  const from = at < 0 && step < 0 ? 0 : at;
  for (let k = 1; k <= regions.length; k++)
    if (enter(regions[(from + k * step + k * regions.length) % regions.length])) return;
}

/** Skip links over the header, shown on focus; F6 goes to the next region and Shift+F6 to the previous one. */
export function SkipKeys() {
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.key !== 'F6' || event.ctrlKey || event.altKey || event.metaKey) return;
      // An open dialog keeps the focus.
      if (document.querySelector('dialog[open]') !== null) return;
      event.preventDefault();
      moveToRegion(event.shiftKey ? -1 : 1);
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, []);
  return (
    <nav className="skips" aria-label="Skip">
      {PLACES.map(([text, selector]) => (
        <button
          key={selector}
          type="button"
          title="F6 goes from region to region"
          onClick={() => enter(document.querySelector(selector))}
        >
          {text}
        </button>
      ))}
    </nav>
  );
}
