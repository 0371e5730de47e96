import { lazy, Suspense, useDeferredValue, useEffect, useMemo, useRef } from 'react';
import type { Solid } from '../../solids/solid.ts';
import { useScrollIntoView } from '../kit/useScrollIntoView.ts';
import { readyFitWorker } from '../sheets/fit/fitStart.ts';
import { AddPart } from '../sheets/parts/AddPart.tsx';
import { assumedValues, countAssumed } from '../sheets/parts/assumedValues.ts';
import { FileProblems } from '../sheets/parts/FileProblems.tsx';
import { currentSource, useDocument } from '../state/documentStore.ts';
import type { OpenCorner } from '../state/engine.ts';
import { keyDimension, LOOKS } from '../state/looks.ts';
import { type OwnSheet, useView } from '../state/viewStore.ts';
import { ColumnHandle } from './ColumnHandle.tsx';
import { partGroups } from './partGroups.ts';

/**
 * Buttons of the sheets: text, and accessible name if it is longer. The button of the assumed values is separate; those of
 * the sheets about a pair are at the list of pairs.
 */
const SHEETS: readonly (readonly [OwnSheet, text: string, spoken?: string])[] = [
  ['corner', 'Corner', 'Corner and pair rules'],
  ['suspension', 'Points', 'Points and suspension'],
  ['fit', 'Clocking', 'Caliper and hub clocking'],
  ['vary', 'Variants'],
  ['limits', 'Stops', 'Travel, lock and stops'],
  ['space', 'Space', 'Space of tyre and wheel'],
  ['templates', 'Templates'],
];

// Sheets are loaded when they are opened, so that the first picture does not wait for them.
const loadSheets = () => import('./OwnSheets.tsx');
const OwnSheets = lazy(loadSheets);
const PartSheet = lazy(() =>
  import('../sheets/parts/PartSheet.tsx').then((made) => ({ default: made.PartSheet })),
);

/** Loads ahead of time what a sheet needs, when its button is pointed at or focused. */
const READY: Partial<Record<OwnSheet, () => void>> = {
  fit() {
    readyFitWorker();
    // If it cannot be loaded, opening it shows the reason.
    loadSheets()
      .then(({ loadFitSheet }) => loadFitSheet())
      .catch(() => {});
  },
};

/** The parts by carrier, and the open sheet. */
export function PartsPanel({ corner }: { corner: OpenCorner }) {
  const part = useView((view) => view.part);
  // Deferred: while a sheet loads, the previous one stays.
  const sheet = useDeferredValue(useView((view) => view.sheet));
  const source = useDocument(currentSource);
  // Counted after the panel is shown: the first count reads every field of the schema.
  const counted = useDeferredValue(source, undefined);
  const assumed = useMemo(
    () => (counted === undefined ? undefined : countAssumed(assumedValues(counted))),
    [counted],
  );
  // The sheet of a selected part covers the sheet of the whole corner.
  const open = part === undefined ? sheet : undefined;
  const toggle = (name: OwnSheet) => {
    useView.setState({ part: undefined, sheet: open === name ? undefined : name });
  };
  const close = () => useView.setState({ part: undefined, sheet: undefined });
  useMockupKey();
  const list = useRef<HTMLDivElement>(null);
  useScrollIntoView(list, '[data-chosen="true"]', part);
  return (
    <aside className="parts-panel" aria-label="Parts">
      <div className="bench-tools">
        <AddPart corner={corner} />
        {SHEETS.map(([name, text, spoken]) => (
          <button
            key={name}
            type="button"
            aria-pressed={open === name}
            aria-label={spoken}
            onPointerEnter={open === name ? undefined : READY[name]}
            onFocus={open === name ? undefined : READY[name]}
            onClick={() => toggle(name)}
          >
            {text}
          </button>
        ))}
        <button
          type="button"
          aria-pressed={open === 'assumed'}
          title="Values that are defaults or guesses"
          onClick={() => toggle('assumed')}
        >
          {assumed ?? '…'} assumed
        </button>
      </div>
      <div className="parts-list" ref={list}>
        {partGroups(corner.design.corner.suspension, corner.solids).map(({ title, solids }) => (
          <section key={title} aria-label={title}>
            <h2>{title}</h2>
            <ul>
              {solids.map((solid) => (
                <PartRow key={solid.id} corner={corner} solid={solid} />
              ))}
            </ul>
          </section>
        ))}
      </div>
      <FileProblems corner={corner} />
      <Suspense>
        {part !== undefined && <PartSheet corner={corner} part={part} onClose={close} />}
        {open !== undefined && <OwnSheets name={open} corner={corner} onClose={close} />}
      </Suspense>
      <ColumnHandle />
    </aside>
  );
}

/** G opens the sheet of the mock-up, for the gap of the selected pair at the pose in hand. */
function useMockupKey(): void {
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (event.key !== 'g' || event.ctrlKey || event.altKey || event.metaKey) return;
      const { target } = event;
      const isTyping = target instanceof Element && target.matches('input, textarea, select');
      if (isTyping || document.querySelector('dialog[open]') !== null) return;
      event.preventDefault();
      useView.setState({ part: undefined, sheet: 'mockup' });
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, []);
}

function PartRow({ corner, solid }: { corner: OpenCorner; solid: Solid }) {
  const { hidden, part, unit, toggleHidden } = useView();
  const shown = !hidden.has(solid.id);
  const chosen = part === solid.partIndex;
  return (
    <li className="part" data-chosen={chosen}>
      <button
        type="button"
        className="part-eye"
        aria-pressed={shown}
        aria-label={`Show ${solid.label}`}
        title={shown ? 'Hide' : 'Show'}
        onClick={() => toggleHidden([solid.id])}
      >
        <span className="tone" style={{ ['--tone' as string]: LOOKS[solid.kind].tone }} />
      </button>
      <button
        type="button"
        className="part-name"
        aria-pressed={chosen}
        onClick={() => useView.setState({ part: chosen ? undefined : solid.partIndex })}
      >
        <span>{solid.label}</span>
        <span className="part-key">
          {keyDimension(corner.design.inputs, solid, unit, corner.design.corner.unit)}
        </span>
      </button>
    </li>
  );
}
