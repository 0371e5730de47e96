import { type KeyboardEvent, useRef } from 'react';
import type { PairFinding } from '../../findings/findings.ts';
import { type Figures, figuresIn } from '../../report/figures.ts';
import { provenAtLeastMm } from '../../report/proven.ts';
import { treatmentInWords } from '../../report/treatment.ts';
import { nextInList } from '../kit/nextInList.ts';
import { StateMark } from '../kit/StateMark.tsx';
import { useScrollIntoView } from '../kit/useScrollIntoView.ts';
import { gapText, pairLabel, poseBrief, STATE_WORDS, signedMargin } from '../kit/words.ts';
import { StaleNote } from '../map/StaleNote.tsx';
import { useIsWithin } from '../sheets/measuringError/measuringErrorStore.ts';
import type { OpenCorner } from '../state/engine.ts';
import { useSession } from '../state/session.ts';
import { useView } from '../state/viewStore.ts';
import { PairZones } from '../tools/zones/PairZones.tsx';
import { PairsAside } from './PairsAside.tsx';
import { PairTools } from './PairTools.tsx';
import { useKeptPairs } from './useKeptPairs.ts';

/** Every checked pair, least margin first. Choosing one goes to its tight spot. */
export function PairList({ corner }: { corner: OpenCorner }) {
  const session = useSession();
  const kept = useKeptPairs(corner);
  const chosen = useView((view) => view.pair);
  const unit = useView((view) => view.unit);
  const isWithin = useIsWithin(corner);
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

  useScrollIntoView(list, '[aria-selected="true"]', chosen);

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
      <PairTools />
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
            isWithin={!isStale && isWithin(finding.pair)}
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
  /** Proved lower bound of the clearance over all poses, errors included; undefined without a proof. */
  provenMm: number | undefined;
  /** Whether its margin is less than its measuring error. */
  isWithin: boolean;
  chosen: boolean;
  figures: Figures;
  onChoose(): void;
}

function PairRow({ corner, finding, provenMm, isWithin, chosen, figures, onChoose }: PairRowProps) {
  const { pair, state, worst, unknownSteps } = finding;
  const { targetMm, moves, targetOrigin, zones } = corner.pairs[pair];
  const where =
    worst === undefined
      ? state === 'far'
        ? 'never near'
        : 'not computed'
      : moves
        ? poseBrief(corner.design.corner, worst.travelMm, worst.steer, figures)
        : 'same at every pose';
  const { unit } = figures;
  const details = [`Target ${figures.givenWithUnit(targetMm)} (${targetOrigin})`];
  if (worst !== undefined)
    details.push(`Least found ${figures.withErrorAndUnit(worst.clearanceMm, worst.errorMm)}`);
  if (provenMm !== undefined)
    details.push(`Proven nowhere below ${figures.least(provenMm)} ${unit}, errors included`);
  const name = pairLabel(corner.solids, corner.pairs[pair]);
  const gap = worst === undefined ? '' : gapText(worst.clearanceMm, worst.errorMm, figures);
  const margin = worst === undefined ? '' : `margin ${signedMargin(worst.marginMm, worst.errorMm, figures)}`;
  const unknown = unknownSteps > 0 ? `, ${unknownSteps} steps unknown` : '';
  const stateWords = isWithin ? `${STATE_WORDS[state]}, within measuring error` : STATE_WORDS[state];
  const treated = zones.length > 0 ? `; ${treatmentInWords({ zones })}` : '';
  const spoken = [name, `${stateWords} ${where}${unknown}${treated}`, gap && `${gap} ${unit}`, margin]
    .filter(Boolean)
    .join(', ');
  return (
    <div
      id={`pair-${pair}`}
      className="pair"
      role="option"
      aria-selected={chosen}
      // Rows outside the viewport are not laid out, and their text is missing from the accessibility tree.
      aria-label={spoken}
      data-state={state}
      tabIndex={-1}
      title={details.join('. ')}
      onClick={onChoose}
      onKeyDown={(event) => {
        if (event.key === 'Enter') onChoose();
      }}
    >
      <StateMark state={state} />
      <span className="pair-name">{name}</span>
      <span className="pair-where">
        <b>{stateWords}</b> {where}
        {unknown}
        {treated}
      </span>
      <MarginBar clearanceMm={worst?.clearanceMm} targetMm={targetMm} />
      <span className="pair-gap">{gap}</span>
      <span className="pair-margin">{margin}</span>
    </div>
  );
}

/** Position of the target on every bar, as a fraction of its length, so that the targets of all rows align. */
const TARGET_AT = 0.4;

/** Clearance as a bar; the tick is the target. */
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
