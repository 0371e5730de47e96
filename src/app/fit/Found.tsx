import { useId, useState } from 'react';
import {
  clockingsInWords,
  marginInWords,
  mountingInWords,
  unchangingLimits,
  unmetLines,
} from '../../report/clocking/clockingWords.ts';
import { figuresIn } from '../../report/figures.ts';
import type { Mounting } from '../../studies/clocking/apply.ts';
import { choiceOf } from '../../studies/clocking/mountingChoice.ts';
import { areSameWants } from '../../studies/clocking/studyMountings.ts';
import type { Clockings } from '../../studies/clocking/studyPairs.ts';
import type { OpenCorner } from '../engine.ts';
import { useView } from '../stores/viewStore.ts';
import { capital } from '../words.ts';
import { CandidateList, type RankedCandidate } from './CandidateList.tsx';
import { cellInWords, FitMap } from './FitMap.tsx';
import { type FitFound, type FoundMounting, nameIn } from './fitFound.ts';
import { cellAt } from './fitPicture.ts';
import { SweepCandidates } from './SweepCandidates.tsx';
import { useReach } from './useReach.ts';
import { useSweptCandidates } from './useSweptCandidates.ts';

interface FoundProps {
  found: FitFound;
  /** How each mounting of `found` differs from the corner in hand. */
  mountings: readonly Mounting[];
  corner: Pick<OpenCorner, 'design' | 'limitsAt' | 'settings'>;
  leastMarginMm: number | undefined;
  drawn: Clockings;
  /** To a mounting, by its index, and clockings; `hold` names a drag, of which all steps are one change. */
  onTurn(mounting: number, to: Clockings, hold: string | undefined): void;
}

/** What a study found: the map of one mounting, what none has, and the best arrangements of all. */
export function Found({ found, mountings, corner, leastMarginMm, drawn, onTurn }: FoundProps) {
  const unit = useView((view) => view.unit);
  const [chosen, setChosen] = useState<string>();
  const { mounted } = found;
  const { state, start, cancel } = useSweptCandidates(found, mountings);
  const reach = useReach(found, mountings, corner.design);
  const ranked: readonly RankedCandidate[] =
    state.kind === 'swept'
      ? state.swept.map((swept) => ({ ...swept.candidate, swept }))
      : found.candidates.map((candidate) => ({ ...candidate, swept: undefined }));
  const inHand = mountings.findIndex((mounting) => choiceOf(mounting) === 'drawn');
  const wanted = mounted.findIndex(({ key }) => key === chosen);
  const shown = wanted >= 0 ? wanted : Math.max(0, inHand);
  const { picture, unchanging } = mounted[shown];
  const nameOf = nameIn(mounted[shown]);
  const overTravel = state.kind === 'swept' ? state.swept[0]?.findings.limits : undefined;
  const limits =
    overTravel === undefined
      ? unchangingLimits(corner.limitsAt(0, 0), 'ride height')
      : unchangingLimits(overTravel, 'travel and lock');
  return (
    <>
      {mounted.length > 1 && (
        <MapSelect mounted={mounted} mountings={mountings} shown={shown} onChoose={(key) => setChosen(key)} />
      )}
      <FitMap
        picture={picture}
        nameOf={nameOf}
        drawn={drawn}
        candidates={ranked
          .map((candidate, k) => ({ ...candidate, rank: k + 1 }))
          .filter(({ mounting }) => mounting === shown)}
        onTurn={(to, hold) => onTurn(shown, to, hold)}
      />
      <ul className="map-key" aria-label="Key to the map">
        <li>
          <span className="swatch swatch-tint" aria-hidden="true" /> clear, least left darkest
        </li>
        <li>
          <span className="swatch swatch-hatch" aria-hidden="true" /> not clear
        </li>
        <li>pale: not as wanted</li>
      </ul>
      <p data-testid="fit-now">
        {capital(mountingInWords(mountings[shown]))}, {clockingsInWords(drawn)}:{' '}
        {cellInWords(cellAt(picture, drawn), nameOf, unit)}.
      </p>
      {unchanging.marginMm < 0 && (
        <p className="warning">No turn helps: margin {marginInWords(nameOf, unchanging, figuresIn(unit))}.</p>
      )}
      {limits !== undefined && <p className="warning">{limits}</p>}
      <UnmetWants found={found} mountings={mountings} shown={shown} />
      {ranked.length > 0 && (
        <>
          <SweepCandidates state={state} onStart={() => start(corner, leastMarginMm)} onCancel={cancel} />
          <CandidateList found={found} ranked={ranked} mountings={mountings} reach={reach} onTurn={onTurn} />
        </>
      )}
    </>
  );
}

interface MapSelectProps {
  mounted: readonly FoundMounting[];
  mountings: readonly Mounting[];
  shown: number;
  onChoose(key: string): void;
}

/** Which mounting the map shows. */
function MapSelect({ mounted, mountings, shown, onChoose }: MapSelectProps) {
  const id = useId();
  return (
    <div className="fit-row">
      <label htmlFor={id}>Map of</label>
      <select id={id} value={mounted[shown].key} onChange={(event) => onChoose(event.target.value)}>
        {mounted.map(({ key }, k) => (
          <option key={key} value={key}>
            {mountingInWords(mountings[k])}
          </option>
        ))}
      </select>
    </div>
  );
}

/** Wants that no mounting meets, and of the one that is shown those that only it does not. */
function UnmetWants({
  found,
  mountings,
  shown,
}: Pick<FoundProps, 'found' | 'mountings'> & { shown: number }) {
  const unit = useView((view) => view.unit);
  const figures = figuresIn(unit);
  const { mounted, unmet } = found;
  const severally = mounted.length > 1;
  const byAll = severally ? unmet : [];
  const own = mounted[shown].unmet.filter((one) => !byAll.some((other) => areSameWants(one, other)));
  const told = [
    ...byAll.map((one) => {
      const least = one.mounting ?? 0;
      return unmetLines(nameIn(mounted[least]), one, figures, mountingInWords(mountings[least]));
    }),
    ...own.map((one) => unmetLines(nameIn(mounted[shown]), one, figures)),
  ];
  return told.map((lines) => (
    <p key={lines[0]} className="warning">
      {lines.join(' ')}
    </p>
  ));
}
