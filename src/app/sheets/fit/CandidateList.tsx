import {
  aheadInWords,
  bleedAndArmLines,
  clockingsInWords,
  marginInWords,
  mountingInWords,
  worstInWords,
} from '../../../report/clocking/clockingWords.ts';
import { figuresIn } from '../../../report/figures.ts';
import type { Mounting } from '../../../studies/clocking/apply.ts';
import type { Clockings } from '../../../studies/clocking/studyPairs.ts';
import type { SweptCandidate } from '../../../studies/clocking/sweepCandidates.ts';
import { useView } from '../../state/viewStore.ts';
import { type FitFound, type FoundCandidate, nameIn } from '../../workers/fit/fitFound.ts';
import type { ReachLines } from './useReach.ts';

/** A candidate in rank order; `swept` is defined once all are swept. */
export type RankedCandidate = FoundCandidate & { swept: SweptCandidate<FoundCandidate> | undefined };

interface CandidateListProps {
  found: FitFound;
  ranked: readonly RankedCandidate[];
  mountings: readonly Mounting[];
  reach: ReachLines;
  onTurn(mounting: number, to: Clockings, hold: string | undefined): void;
}

/** The best arrangements. Each is a button that applies its mounting and clocking to the corner. */
export function CandidateList({ found, ranked, mountings, reach, onTurn }: CandidateListProps) {
  return (
    <ol className="fit-candidates" aria-label="Best arrangements">
      {ranked.map((candidate, k) => {
        const { mounting, caliperDeg, hubDeg } = candidate;
        return (
          <li key={`${mounting} ${caliperDeg} ${hubDeg}`}>
            <button type="button" onClick={() => onTurn(mounting, candidate, `candidate ${k + 1}`)}>
              <span className="unseen">{`Turn to arrangement ${k + 1}:`}</span>
              <span className="fit-rank" aria-hidden="true">
                {k + 1}
              </span>
              <CandidateText
                found={found}
                candidate={candidate}
                mounting={mountings[mounting]}
                bolts={reach(candidate)}
              />
            </button>
          </li>
        );
      })}
    </ol>
  );
}

interface CandidateTextProps {
  found: FitFound;
  candidate: RankedCandidate;
  mounting: Mounting;
  /** Lines about its bolts. */
  bolts: readonly string[];
}

function CandidateText({ found: { mounted }, candidate, mounting, bolts }: CandidateTextProps) {
  const figures = figuresIn(useView((view) => view.unit));
  const { least, caliper, toLowerArm, swept } = candidate;
  const own = mounted[candidate.mounting];
  const lines = [
    ...(mounted.length > 1 ? [`mounted: ${mountingInWords(mounting)}`] : []),
    ...(swept === undefined ? [] : [`worst over travel and lock ${worstInWords(swept, figures)}`]),
    `${swept === undefined ? '' : 'at ride height '}margin ${marginInWords(nameIn(own), least, figures)}`,
    ...(mounted.length > 1 && own.unchanging.marginMm < 0
      ? [`at every clocking: margin ${marginInWords(nameIn(own), own.unchanging, figures)}`]
      : []),
    `caliper's middle ${aheadInWords(caliper, figures)}`,
    ...bleedAndArmLines(caliper, toLowerArm, figures),
    ...bolts,
  ];
  return (
    <span>
      <b>{clockingsInWords(candidate)}</b>
      {lines.map((line) => (
        <span key={line} className="fit-line">
          {line}
        </span>
      ))}
    </span>
  );
}
