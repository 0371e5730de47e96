import { useEffect } from 'react';

/** What F6 goes to, in turn. */
const REGIONS = '.header, .parts-panel, .side-switch, .viewer, .right-panel, .strip';
const FOCUSABLE = 'button:enabled, select:enabled, input:enabled, [tabindex="0"]';

const PLACES = [
  ['Skip to the pairs', '.pair-list'],
  ['Skip to the parts', '.parts-panel'],
  ['Skip to travel', '.rule-vertical'],
] as const;

const isSeen = (element: Element): boolean => element.getClientRects().length > 0;

/** Puts the focus on the first thing of an element that takes it; false where nothing does. */
function enter(element: Element | null | undefined): boolean {
  const all = element == null ? [] : [element, ...element.querySelectorAll(FOCUSABLE)];
  const first = all.find((one) => one.matches(FOCUSABLE) && isSeen(one));
  if (!(first instanceof HTMLElement)) return false;
  first.focus();
  return true;
}

/** Goes to the region after the one in hand, or before it. */
function goOn(step: 1 | -1): void {
  const regions = [...document.querySelectorAll(REGIONS)].filter(isSeen);
  const at = regions.findIndex((region) => region.contains(document.activeElement));
  const from = at < 0 && step < 0 ? 0 : at;
  for (let k = 1; k <= regions.length; k++)
    if (enter(regions[(from + k * step + k * regions.length) % regions.length])) return;
}

/** Links over the header for whoever comes by Tab, and F6 from region to region; Shift+F6 goes back. */
export function SkipKeys() {
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.key !== 'F6' || event.ctrlKey || event.altKey || event.metaKey) return;
      // A dialog holds the focus.
      if (document.querySelector('dialog[open]') !== null) return;
      event.preventDefault();
      goOn(event.shiftKey ? -1 : 1);
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
