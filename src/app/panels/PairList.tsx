import { type KeyboardEvent, useRef } from 'react';
import type { PairFinding } from '../../findings/findings.ts';
import { type Figures, figuresIn } from '../../report/figures.ts';
import { provenAtLeastMm } from '../../report/proven.ts';
import { treatmentInWords } from '../../report/treatment.ts';
import type { OpenCorner } from '../engine.ts';
import { useSession } from '../session.ts';
import { useView } from '../stores/viewStore.ts';
import { gapText, pairLabel, poseBrief, STATE_WORDS, signedMargin } from '../words.ts';
import { PairZones } from '../zones/PairZones.tsx';
import { nextInList } from './nextInList.ts';
import { PairsAside } from './PairsAside.tsx';
import { StaleNote } from './StaleNote.tsx';
import { StateMark } from './StateMark.tsx';
import { useInView } from './useInView.ts';
import { useKeptPairs } from './useKeptPairs.ts';

/** Every pair that is checked, least margin first; choosing one goes to its tight spot. */
export function PairList({ corner }: { corner: OpenCorner }) {
  const session = useSession();
  const kept = useKeptPairs(corner);
  const chosen = useView((view) => view.pair);
  const unit = useView((view) => view.unit);
  const list = useRef<HTMLDivElement>(null);
  const findings = kept?.swept.findings.pairs ?? [];
  const isStale = kept?.isStale === true;
  const nowOf = (pair: number) => kept?.nowOf(pair);
  const choose = (pair: number) => {
    const now = nowOf(pair);
    if (now !== undefined) session.showPair(now);
  };
  const pairs = findings.filter(({ state }) => state !== 'far');
  const far = findings.filter(({ state }) => state === 'far');
  const at = chosen === undefined ? -1 : pairs.findIndex(({ pair }) => nowOf(pair) === chosen);

  useInView(list, '[aria-selected="true"]', chosen);

  const onKey = (event: KeyboardEvent) => {
    if (event.key === 'Escape') useView.setState({ pair: undefined });
    const next = nextInList(event.key, at, pairs.length);
    if (next === undefined) return;
    event.preventDefault();
    choose(pairs[next].pair);
  };

  return (
    <section className="pair-panel" aria-labelledby="pairs-heading">
      <StaleNote />
      <header className="pair-heading">
        <h2 id="pairs-heading">Pairs by margin</h2>
        <span>{isStale ? 'before the last change' : `least gap, ${unit}`}</span>
      </header>
      <div
        ref={list}
        className="pair-list"
        role="listbox"
        aria-label="Pairs by margin"
        aria-busy={isStale}
        tabIndex={0}
        aria-activedescendant={at < 0 ? undefined : `pair-${pairs[at].pair}`}
        onKeyDown={onKey}
      >
        {pairs.map((finding) => (
          <PairRow
            key={finding.pair}
            corner={kept?.of ?? corner}
            finding={finding}
            provenMm={kept && provenAtLeastMm({ ...kept.swept, solids: kept.of.solids }, finding)}
            chosen={chosen !== undefined && nowOf(finding.pair) === chosen}
            figures={figuresIn(unit)}
            onChoose={() => choose(finding.pair)}
          />
        ))}
      </div>
      <PairZones corner={corner} />
      <PairsAside corner={corner} far={isStale ? [] : far} />
    </section>
  );
}

interface PairRowProps {
  corner: OpenCorner;
  finding: PairFinding;
  /** What no pose is below, all errors taken off; undefined where nothing is proved. */
  provenMm: number | undefined;
  chosen: boolean;
  figures: Figures;
  onChoose(): void;
}

function PairRow({ corner, finding, provenMm, chosen, figures, onChoose }: PairRowProps) {
  const { pair, state, worst, unknownSteps } = finding;
  const { targetMm, moves, targetOrigin, zones } = corner.pairs[pair];
  const where =
    worst === undefined
      ? state === 'far'
        ? 'never near'
        : 'could not be told'
      : moves
        ? poseBrief(corner.design.corner, worst.travelMm, worst.steer, figures)
        : 'fit: the same at every pose';
  const { unit } = figures;
  const told = [`Target ${figures.givenWithUnit(targetMm)} (${targetOrigin})`];
  if (worst !== undefined)
    told.push(`Least found ${figures.withErrorAndUnit(worst.clearanceMm, worst.errorMm)}`);
  if (provenMm !== undefined)
    told.push(`Proven nowhere below ${figures.least(provenMm)} ${unit}, errors included`);
  const name = pairLabel(corner.solids, corner.pairs[pair]);
  const gap = worst === undefined ? '' : gapText(worst.clearanceMm, worst.errorMm, figures);
  const margin = worst === undefined ? '' : `margin ${signedMargin(worst.marginMm, worst.errorMm, figures)}`;
  const unknown = unknownSteps > 0 ? `, ${unknownSteps} steps unknown` : '';
  const treated = zones.length > 0 ? `; ${treatmentInWords({ zones })}` : '';
  const spoken = [name, `${STATE_WORDS[state]} ${where}${unknown}${treated}`, gap && `${gap} ${unit}`, margin]
    .filter(Boolean)
    .join(', ');
  return (
    <div
      id={`pair-${pair}`}
      className="pair"
      role="option"
      aria-selected={chosen}
      // Rows that are scrolled out of sight are not laid out, and their words not found in them.
      aria-label={spoken}
      data-state={state}
      tabIndex={-1}
      title={told.join('. ')}
      onClick={onChoose}
      onKeyDown={(event) => {
        if (event.key === 'Enter') onChoose();
      }}
    >
      <StateMark state={state} />
      <span className="pair-name">{name}</span>
      <span className="pair-where">
        <b>{STATE_WORDS[state]}</b> {where}
        {unknown}
        {treated}
      </span>
      <MarginBar clearanceMm={worst?.clearanceMm} targetMm={targetMm} />
      <span className="pair-gap">{gap}</span>
      <span className="pair-margin">{margin}</span>
    </div>
  );
}

/** The target stands at this part of every bar's length, so that targets line up down the list. */
const TARGET_AT = 0.4;

/** Clearance as a bar against its target, which is the tick. */
function MarginBar({ clearanceMm, targetMm }: { clearanceMm: number | undefined; targetMm: number }) {
  const filled =
    clearanceMm === undefined
      ? 0
      : Math.max(0, Math.min(1, (TARGET_AT * clearanceMm) / Math.max(targetMm, 0.1)));
  return (
    <span className="bar" aria-hidden="true">
      <span className="bar-fill" style={{ width: `${100 * filled}%` }} />
      <span className="bar-target" style={{ left: `${100 * TARGET_AT}%` }} />
    </span>
  );
}
