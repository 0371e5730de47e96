import { useId } from 'react';
import { decimal, figuresIn } from '../../report/figures.ts';
import type { Clockings } from '../../studies/clocking/studyPairs.ts';
import type { Wants } from '../../studies/clocking/wants.ts';
import { SheetFrame } from '../bench/SheetFrame.tsx';
import type { OpenCorner } from '../engine.ts';
import { ValueInput } from '../section/ValueInput.tsx';
import { useSession } from '../session.ts';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';
import { useView } from '../stores/viewStore.ts';
import { signedLeast } from '../words.ts';
import { BoltsCheck } from './BoltsCheck.tsx';
import { cellWords, degrees, FitMap } from './FitMap.tsx';
import type { FitCandidate, FitFound } from './fitFound.ts';
import { cellAt } from './fitPicture.ts';
import { useFit } from './fitStore.ts';
import { clockingsOf, withClockings } from './turned.ts';
import { unmetWords } from './unmetWords.ts';
import { useFitStudy } from './useFitStudy.ts';

/** The study of caliper and hub clocking: a map that turns both, what is wanted, and the best arrangements. */
export default function FitSheet({ corner, onClose }: { corner: OpenCorner; onClose(): void }) {
  const hasCaliper = corner.design.corner.parts.some(({ kind }) => kind === 'caliper');
  return (
    <SheetFrame title="Fit at the wheel" onClose={onClose}>
      <p className="bench-kind">
        Margins at ride height as caliper and hub turn about the wheel's axis. Press on the map to turn both;
        arrow keys turn by a degree.
      </p>
      {hasCaliper ? <Study corner={corner} /> : <p className="bench-problem">Add a caliper to clock it.</p>}
      <h3>Bolts, as they stand</h3>
      <BoltsCheck corner={corner} />
    </SheetFrame>
  );
}

function Study({ corner }: { corner: OpenCorner }) {
  const session = useSession();
  const unit = useView((view) => view.unit);
  const wants = useFit((fit) => fit.wants);
  const { found, progress, failure } = useFitStudy(corner, wants);
  const drawn = clockingsOf(corner.design.corner);
  const turn = (to: Clockings, hold: string | undefined) => {
    const source = withClockings(sourceInHand(useDocument.getState()), to);
    const label = `Caliper turned to ${degrees(to.caliperDeg)}, hub to ${degrees(to.hubDeg)}`;
    void session.change(label, source, hold ?? 'turned by keys', hold !== undefined);
  };
  return (
    <>
      <WantRows corner={corner} wants={wants} />
      {failure !== undefined && (
        <p className="bench-problem" role="alert">
          {failure}
        </p>
      )}
      {found === undefined ? (
        failure === undefined && (
          <p className="fit-waiting" role="status">
            Studying{progress === undefined ? '' : `: ${progress.done} of ${progress.total} pairs`}
          </p>
        )
      ) : (
        <Found found={found} drawn={drawn} unit={unit} onTurn={turn} />
      )}
    </>
  );
}

interface FoundProps {
  found: FitFound;
  drawn: Clockings;
  unit: 'mm' | 'in';
  onTurn(to: Clockings, hold: string | undefined): void;
}

function Found({ found, drawn, unit, onTurn }: FoundProps) {
  const { picture, pairs, candidates, unmet, unchanging } = found;
  const nameOf = (pair: number) => (pairs[pair] ?? []).join(' ↔ ');
  return (
    <>
      <FitMap picture={picture} nameOf={nameOf} drawn={drawn} candidates={candidates} onTurn={onTurn} />
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
        Caliper {degrees(drawn.caliperDeg)}, hub {degrees(drawn.hubDeg)}:{' '}
        {cellWords(cellAt(picture, drawn.caliperDeg, drawn.hubDeg), nameOf, unit)}.
      </p>
      {unchanging.marginMm < 0 && (
        <p className="warning">
          No turn helps {nameOf(unchanging.limitedBy)}: margin{' '}
          {signedLeast(unchanging.marginMm, figuresIn(unit))} {unit}.
        </p>
      )}
      {unmet.map((one) => (
        <p key={one.wants.join(' ')} className="warning">
          {unmetWords(one, nameOf, figuresIn(unit))}
        </p>
      ))}
      {candidates.length > 0 && (
        <ol className="fit-candidates" aria-label="Best arrangements">
          {candidates.map((candidate, i) => (
            <CandidateRow
              key={`${candidate.caliperDeg} ${candidate.hubDeg}`}
              rank={i + 1}
              candidate={candidate}
              nameOf={nameOf}
              unit={unit}
              onTurn={() => onTurn(candidate, `candidate ${i + 1}`)}
            />
          ))}
        </ol>
      )}
    </>
  );
}

interface CandidateProps {
  rank: number;
  candidate: FitCandidate;
  nameOf(pair: number): string;
  unit: 'mm' | 'in';
  onTurn(): void;
}

function CandidateRow({ rank, candidate, nameOf, unit, onTurn }: CandidateProps) {
  const { caliperDeg, hubDeg, least, bleedScrewDeg, aheadMm, lowerArm } = candidate;
  const figures = figuresIn(unit);
  const margin = Number.isFinite(least.marginMm)
    ? `margin ${figures.signedWithError(least.marginMm, least.errorMm)} ${unit}, ${nameOf(least.limitedBy)}`
    : 'all that turn are far from all else';
  const told = [
    margin,
    bleedScrewDeg === undefined ? '' : `bleed screw ${decimal(Math.abs(bleedScrewDeg), 0)}° from the top`,
    `caliper ${figures.placeWithUnit(Math.abs(aheadMm))} ${aheadMm >= 0 ? 'ahead of' : 'behind'} the axle`,
    lowerArm === undefined
      ? ''
      : `${figures.withError(lowerArm.clearanceMm, lowerArm.errorMm)} ${unit} to the lower arm`,
  ];
  return (
    <li>
      <button type="button" onClick={onTurn} aria-label={`Turn to arrangement ${rank}`}>
        {rank}
      </button>
      <div>
        <b>
          Caliper {degrees(caliperDeg)}, hub {degrees(hubDeg)}
        </b>
        {told.filter(Boolean).map((line) => (
          <p key={line}>{line}</p>
        ))}
      </div>
    </li>
  );
}

/** What is wanted of the clockings. */
function WantRows({ corner, wants }: { corner: OpenCorner; wants: Wants }) {
  const unit = useView((view) => view.unit);
  const place = useId();
  const hasBleedScrew = corner.design.corner.parts.some(
    (part) => part.kind === 'caliper' && part.bleedScrew !== undefined,
  );
  const want = (change: Wants) =>
    useFit.setState({
      wants: Object.fromEntries(
        Object.entries({ ...wants, ...change }).filter(([, value]) => value !== undefined),
      ),
    });
  return (
    <div className="fit-wants">
      {hasBleedScrew && (
        <ValueInput
          name="Bleed screw, up to"
          spoken="Bleed screw from straight up at most, degrees"
          kind="angle"
          value={wants.bleedWithinDeg ?? 180}
          unit={unit}
          onChange={(deg) => want({ bleedWithinDeg: deg >= 180 ? undefined : Math.max(1, deg) })}
        />
      )}
      <ValueInput
        name="Least margin"
        kind="length"
        value={wants.leastMarginMm ?? 0}
        unit={unit}
        onChange={(mm) => want({ leastMarginMm: mm === 0 ? undefined : mm })}
      />
      <span>
        <label htmlFor={place}>Caliper</label>
        <select
          id={place}
          value={wants.caliperPlace ?? ''}
          onChange={(event) =>
            want({ caliperPlace: (event.target.value || undefined) as Wants['caliperPlace'] })
          }
        >
          <option value="">anywhere</option>
          <option value="ahead">ahead</option>
          <option value="behind">behind</option>
        </select>
      </span>
    </div>
  );
}
