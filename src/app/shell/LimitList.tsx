import { type KeyboardEvent, useRef } from 'react';
import type { LimitFinding } from '../../findings/limitFindings.ts';
import { type Figures, figuresIn } from '../../report/figures.ts';
import {
  allowedFromInWords,
  limitAllowed,
  limitLeft,
  limitName,
  limitTitle,
  limitUsed,
} from '../../report/limitRows.ts';
import { nextInList } from '../kit/nextInList.ts';
import { StateMark } from '../kit/StateMark.tsx';
import { useScrollIntoView } from '../kit/useScrollIntoView.ts';
import { limitCountsText, poseBrief, STATE_WORDS } from '../kit/words.ts';
import { useCorner } from '../state/cornerStore.ts';
import type { OpenCorner } from '../state/engine.ts';
import { useSession } from '../state/session.ts';
import { limitKey, useView } from '../state/viewStore.ts';

/** Joints, damper, drive shaft and brake hose with what they use of what they allow, binding ones first. Choosing one goes to its worst pose. */
export function LimitList({ corner }: { corner: OpenCorner }) {
  const session = useSession();
  const findings = useCorner((state) => state.swept?.findings);
  const chosen = useView((view) => view.limit);
  const figures = figuresIn(useView((view) => view.unit));
  const list = useRef<HTMLDivElement>(null);
  useScrollIntoView(list, '[aria-selected="true"]', chosen);
  if (findings === undefined || findings.limits.length === 0) return null;
  const { limits, limitCounts } = findings;
  const title = limitTitle(corner.design.corner);
  const keyOf = (limit: LimitFinding) => limitKey(corner.design.corner, limit);
  const at = limits.findIndex((limit) => keyOf(limit) === chosen);

  const onKey = (event: KeyboardEvent) => {
    if (event.key === 'Escape') useView.setState({ limit: undefined });
    const next = nextInList(event.key, at, limits.length);
    if (next === undefined) return;
    event.preventDefault();
    session.showLimit(limits[next]);
  };

  return (
    <details className="limit-panel" open={limitCounts.binds + limitCounts.unknown > 0}>
      <summary>
        {title}: {limitCountsText(limitCounts)}
      </summary>
      <div
        ref={list}
        className="limit-list"
        role="listbox"
        aria-label={title}
        tabIndex={0}
        aria-activedescendant={at < 0 ? undefined : `limit-${at}`}
        onKeyDown={onKey}
      >
        {limits.map((limit, index) => (
          <LimitRow
            key={keyOf(limit)}
            id={`limit-${index}`}
            corner={corner}
            limit={limit}
            chosen={index === at}
            figures={figures}
            onChoose={() => session.showLimit(limit)}
          />
        ))}
      </div>
    </details>
  );
}

interface LimitRowProps {
  id: string;
  corner: OpenCorner;
  limit: LimitFinding;
  chosen: boolean;
  figures: Figures;
  onChoose(): void;
}

function LimitRow({ id, corner, limit, chosen, figures, onChoose }: LimitRowProps) {
  const { state, worst, allowed } = limit;
  const where =
    worst === undefined
      ? 'no pose can be reached'
      : poseBrief(corner.design.corner, worst.travelMm, worst.steer, figures);
  const left = limitLeft(limit, figures);
  return (
    <div
      id={id}
      className="pair"
      role="option"
      aria-selected={chosen}
      data-state={state}
      tabIndex={-1}
      title={`Allowed ${limitAllowed(limit, figures)} (${allowedFromInWords(limit, figures)})${left === '' ? '' : `, left ${left}`}`}
      onClick={onChoose}
      onKeyDown={(event) => {
        if (event.key === 'Enter') onChoose();
      }}
    >
      <StateMark state={state} />
      <span className="pair-name">{limitName(limit)}</span>
      <span className="pair-where">
        <b>{STATE_WORDS[state]}</b> {where}
      </span>
      <span className="pair-gap">{limitUsed(limit, figures)}</span>
      <span className="pair-margin">
        {allowed === undefined ? `give ${limit.allowedFrom.field}` : `of ${limitAllowed(limit, figures)}`}
      </span>
    </div>
  );
}
