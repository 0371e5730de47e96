import { lazy, Suspense, useDeferredValue, useMemo, useRef } from 'react';
import type { Solid } from '../../solids/solid.ts';
import { AddPart } from '../bench/AddPart.tsx';
import { AssumedSheet } from '../bench/AssumedSheet.tsx';
import { assumedValues, countAssumed } from '../bench/assumedValues.ts';
import { CornerSheet } from '../bench/CornerSheet.tsx';
import { FileProblems } from '../bench/FileProblems.tsx';
import { PartSheet } from '../bench/PartSheet.tsx';
import { SuspensionSheet } from '../bench/SuspensionSheet.tsx';
import type { OpenCorner } from '../engine.ts';
import { readyFitWorker } from '../fit/fitStart.ts';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';
import { type OwnSheet, useView } from '../stores/viewStore.ts';
import { PART_TONES } from '../tones.ts';
import { ColumnHandle } from './ColumnHandle.tsx';
import { keyDimension } from './inputText.ts';
import { partGroups } from './partGroups.ts';
import { useInView } from './useInView.ts';

/** Their buttons as shown, and as spoken where that says more; the one that counts what is assumed stands beside them. */
const SHEETS: readonly (readonly [OwnSheet, text: string, spoken?: string])[] = [
  ['corner', 'Corner', 'Corner and pair rules'],
  ['suspension', 'Points', 'Points and suspension'],
  ['fit', 'Fit', 'Fit at the wheel'],
  ['vary', 'What will fit'],
];

/** Only when it is asked for: the first picture need not wait for it. */
const loadFitSheet = () => import('../fit/FitSheet.tsx');
const FitSheet = lazy(loadFitSheet);
const VarySheet = lazy(() => import('../vary/VarySheet.tsx'));
const LOADED_LATER: ReadonlySet<OwnSheet> = new Set(['fit', 'vary']);

/** Whoever points at a sheet is about to open it. */
const READY: Partial<Record<OwnSheet, () => void>> = {
  fit() {
    readyFitWorker();
    // Why it cannot be loaded is told when it is opened.
    loadFitSheet().catch(() => {});
  },
};

/** The parts by what they move with, and the bench sheet of the one in hand. */
export function PartsPanel({ corner }: { corner: OpenCorner }) {
  const part = useView((view) => view.part);
  const asked = useView((view) => view.sheet);
  const deferred = useDeferredValue(asked);
  // Deferred, a sheet that is still loading leaves no gap: the one before it stays until it has loaded.
  const sheet = asked !== undefined && LOADED_LATER.has(asked) ? deferred : asked;
  const source = useDocument(sourceInHand);
  // Counted after the panel is there: the first count reads every field that the schema knows.
  const counted = useDeferredValue(source, undefined);
  const assumed = useMemo(
    () => (counted === undefined ? undefined : countAssumed(assumedValues(counted))),
    [counted],
  );
  // A part that is taken into hand lies over the sheet of the whole corner.
  const inHand = part === undefined ? sheet : undefined;
  const toggle = (wanted: OwnSheet) => {
    useView.setState({ part: undefined, sheet: inHand === wanted ? undefined : wanted });
  };
  const close = () => useView.setState({ part: undefined, sheet: undefined });
  const list = useRef<HTMLDivElement>(null);
  useInView(list, '[data-chosen="true"]', part);
  return (
    <aside className="parts-panel" aria-label="Parts">
      <div className="bench-tools">
        <AddPart corner={corner} />
        {SHEETS.map(([name, text, spoken]) => (
          <button
            key={name}
            type="button"
            aria-pressed={inHand === name}
            aria-label={spoken}
            onPointerEnter={inHand === name ? undefined : READY[name]}
            onFocus={inHand === name ? undefined : READY[name]}
            onClick={() => toggle(name)}
          >
            {text}
          </button>
        ))}
        <button
          type="button"
          aria-pressed={inHand === 'assumed'}
          title="Values that nobody has given"
          onClick={() => toggle('assumed')}
        >
          {assumed ?? '…'} assumed
        </button>
      </div>
      <div className="parts-list" ref={list}>
        {partGroups(corner.solids).map(({ title, solids }) => (
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
      {part !== undefined && <PartSheet corner={corner} part={part} onClose={close} />}
      {inHand === 'corner' && <CornerSheet corner={corner} onClose={close} />}
      {inHand === 'suspension' && <SuspensionSheet corner={corner} onClose={close} />}
      {inHand === 'fit' && (
        <Suspense>
          <FitSheet corner={corner} onClose={close} />
        </Suspense>
      )}
      {inHand === 'vary' && (
        <Suspense>
          <VarySheet corner={corner} onClose={close} />
        </Suspense>
      )}
      {inHand === 'assumed' && <AssumedSheet corner={corner} onClose={close} />}
      <ColumnHandle />
    </aside>
  );
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
        <span className="tone" style={{ ['--tone' as string]: PART_TONES[solid.kind] }} />
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
