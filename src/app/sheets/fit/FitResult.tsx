import { useId, useState } from 'react';
import {
  clockingsInWords,
  marginInWords,
  mountingInWords,
  unchangingLimits,
  unmetLines,
} from '../../../report/clocking/clockingWords.ts';
import { figuresIn } from '../../../report/figures.ts';
import type { Mounting } from '../../../studies/clocking/apply.ts';
import { choiceOf } from '../../../studies/clocking/mountingChoice.ts';
import { areSameWants } from '../../../studies/clocking/studyMountings.ts';
import type { Clockings } from '../../../studies/clocking/studyPairs.ts';
import { capital } from '../../kit/words.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { useView } from '../../state/viewStore.ts';
import { type FitFound, type FoundMounting, nameIn } from '../../workers/fit/fitFound.ts';
import { cellAt } from '../../workers/fit/fitPicture.ts';
import { CandidateList, type RankedCandidate } from './CandidateList.tsx';
import { cellInWords, FitMap } from './FitMap.tsx';
import { SweepCandidates } from './SweepCandidates.tsx';
import { useReach } from './useReach.ts';
import { useSweptCandidates } from './useSweptCandidates.ts';

interface FitResultProps {
  found: FitFound;
  /** Difference of each mounting of `found` from the current corner. */
  mountings: readonly Mounting[];
  corner: Pick<OpenCorner, 'design' | 'limitsAt' | 'settings'>;
  leastMarginMm: number | undefined;
  drawn: Clockings;
  /** Applies a mounting, by index, and clockings. `hold`: merge key of a drag, whose steps are one change. */
  onTurn(mounting: number, to: Clockings, hold: string | undefined): void;
}

/** Result of a study: the map of one mounting, the requirements that cannot be met, and the best arrangements. */
export function FitResult({ found, mountings, corner, leastMarginMm, drawn, onTurn }: FitResultProps) {
  const unit = useView((view) => view.unit);
  const [chosen, setChosen] = useState<string>();
  const { mounted } = found;
  const { state, start, cancel } = useSweptCandidates(found, mountings);
  const reach = useReach(found, mountings, corner.design);
  const ranked: readonly RankedCandidate[] =
    state.kind === 'swept'
      ? state.swept.map((swept) => ({ ...swept.candidate, swept }))
      : found.candidates.map((candidate) => ({ ...candidate, swept: undefined }));
  const drawnIndex = mountings.findIndex((mounting) => choiceOf(mounting) === 'drawn');
  const chosenIndex = mounted.findIndex(({ key }) => key === chosen);
  const shown = chosenIndex >= 0 ? chosenIndex : Math.max(0, drawnIndex);
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
          <span className="swatch swatch-tint" aria-hidden="true" /> clear, darker with less margin
        </li>
        <li>
          <span className="swatch swatch-hatch" aria-hidden="true" /> not clear
        </li>
        <li>pale: not as required</li>
      </ul>
      <p data-testid="fit-now">
        {capital(mountingInWords(mountings[shown]))}, {clockingsInWords(drawn)}:{' '}
        {cellInWords(cellAt(picture, drawn), nameOf, unit)}.
      </p>
      {unchanging.marginMm < 0 && (
        <p className="warning">
          At every clocking: margin {marginInWords(nameOf, unchanging, figuresIn(unit))}.
        </p>
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

/** Selects the mounting that the map shows. */
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

/** Requirements that no mounting meets, then those that the shown mounting does not meet. */
function UnmetWants({
  found,
  mountings,
  shown,
}: Pick<FitResultProps, 'found' | 'mountings'> & { shown: number }) {
  const unit = useView((view) => view.unit);
  const figures = figuresIn(unit);
  const { mounted, unmet } = found;
  const byAll = mounted.length > 1 ? unmet : [];
  const own = mounted[shown].unmet.filter((one) => !byAll.some((other) => areSameWants(one, other)));
  const messages = [
    ...byAll.map((one) => {
      const least = one.mounting ?? 0;
      return unmetLines(nameIn(mounted[least]), one, figures, mountingInWords(mountings[least]));
    }),
    ...own.map((one) => unmetLines(nameIn(mounted[shown]), one, figures)),
  ];
  return messages.map((lines) => (
    <p key={lines[0]} className="warning">
      {lines.join(' ')}
    </p>
  ));
}
