import { useId } from 'react';
import type { Corner } from '../../design/schema.ts';
import {
  aheadInWords,
  bleedAndArmLines,
  clockingsInWords,
  marginInWords,
  type NameOf,
  unmetLines,
} from '../../report/clocking/clockingWords.ts';
import { type Figures, figuresIn } from '../../report/figures.ts';
import { clockedSource } from '../../studies/clocking/apply.ts';
import { caliperFigures } from '../../studies/clocking/figures.ts';
import { LOOK_DEG } from '../../studies/clocking/firstLook.ts';
import { type Clockings, drawnClockings } from '../../studies/clocking/studyPairs.ts';
import type { Wants } from '../../studies/clocking/wants.ts';
import { SheetFrame } from '../bench/SheetFrame.tsx';
import type { OpenCorner } from '../engine.ts';
import { ValueInput } from '../section/ValueInput.tsx';
import { useSession } from '../session.ts';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';
import { useView } from '../stores/viewStore.ts';
import { BoltsCheck } from './BoltsCheck.tsx';
import { cellInWords, FitMap } from './FitMap.tsx';
import type { FitFound, FitSeen } from './fitFound.ts';
import { cellAt } from './fitPicture.ts';
import { useFit } from './fitStore.ts';
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
  const { found, seen, progress, failure } = useFitStudy(corner, wants);
  const drawn = drawnClockings(corner.design);
  const turn = (to: Clockings, hold: string | undefined) => {
    const source = clockedSource(sourceInHand(useDocument.getState()), drawn, to);
    const label = `Turned: ${clockingsInWords(to)}`;
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
      {found === undefined && failure === undefined && (
        <p className="fit-waiting" role="status">
          {seen === undefined
            ? 'Studying'
            : `First look, every ${LOOK_DEG}°: nothing is proved yet. Studying`}
          {progress === undefined ? '' : `: ${progress.done} of ${progress.total} pairs`}
        </p>
      )}
      {found === undefined && seen !== undefined && (
        <Seen seen={seen} drawn={drawn} unit={unit} onTurn={turn} />
      )}
      {found !== undefined && (
        <Found found={found} corner={corner.design.corner} drawn={drawn} unit={unit} onTurn={turn} />
      )}
    </>
  );
}

interface SeenProps extends Pick<FoundProps, 'drawn' | 'unit' | 'onTurn'> {
  seen: FitSeen;
}

/** What is seen before the study is done: it turns both as the map of the whole study does. */
function Seen({ seen, drawn, unit, onTurn }: SeenProps) {
  const nameOf = (pair: number) => (seen.pairs[pair] ?? []).join(' ↔ ');
  return (
    <>
      <FitMap picture={seen.picture} nameOf={nameOf} drawn={drawn} candidates={[]} onTurn={onTurn} />
      <p data-testid="fit-seen">
        As drawn, {clockingsInWords(drawn)}: {cellInWords(cellAt(seen.picture, drawn), nameOf, unit)}.
      </p>
    </>
  );
}

interface FoundProps {
  found: FitFound;
  corner: Corner;
  drawn: Clockings;
  unit: 'mm' | 'in';
  onTurn(to: Clockings, hold: string | undefined): void;
}

function Found({ found, corner, drawn, unit, onTurn }: FoundProps) {
  const { picture, pairs, candidates, unmet, unchanging } = found;
  const figures = figuresIn(unit);
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
        As drawn, {clockingsInWords(drawn)}: {cellInWords(cellAt(picture, drawn), nameOf, unit)}.
      </p>
      {unchanging.marginMm < 0 && (
        <p className="warning">No turn helps: margin {marginInWords(nameOf, unchanging, figures)}.</p>
      )}
      {unmet.map((one) => {
        const lines = unmetLines(nameOf, one, figures);
        return (
          <p key={lines[0]} className="warning">
            {lines.join(' ')}
          </p>
        );
      })}
      {candidates.length > 0 && (
        <ol className="fit-candidates" aria-label="Best arrangements">
          {candidates.map((candidate, i) => (
            <CandidateRow
              key={`${candidate.caliperDeg} ${candidate.hubDeg}`}
              rank={i + 1}
              candidate={candidate}
              nameOf={nameOf}
              corner={corner}
              figures={figures}
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
  corner: Corner;
  candidate: FitFound['candidates'][number];
  nameOf: NameOf;
  figures: Figures;
  onTurn(): void;
}

function CandidateRow({ rank, corner, candidate, nameOf, figures, onTurn }: CandidateProps) {
  const { caliperDeg, least, toLowerArm } = candidate;
  const stands = caliperFigures(corner, caliperDeg);
  const lines = [
    `margin ${marginInWords(nameOf, least, figures)}`,
    `caliper's middle ${aheadInWords(stands, figures)}`,
    ...bleedAndArmLines(stands, toLowerArm, figures),
  ];
  return (
    <li>
      <button type="button" onClick={onTurn} aria-label={`Turn to arrangement ${rank}`}>
        {rank}
      </button>
      <div>
        <b>{clockingsInWords(candidate)}</b>
        {lines.map((line) => (
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
