import { useMemo } from 'react';
import { clockingsInWords, mountingInWords } from '../../report/clocking/clockingWords.ts';
import { clockedSource, type Mounting, mountingsOf } from '../../studies/clocking/apply.ts';
import { LOOK_DEG } from '../../studies/clocking/firstLook.ts';
import { choiceOf } from '../../studies/clocking/mountingChoice.ts';
import { type Clockings, drawnClockings } from '../../studies/clocking/studyPairs.ts';
import { SheetFrame } from '../bench/SheetFrame.tsx';
import type { OpenCorner } from '../engine.ts';
import { useSession } from '../session.ts';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';
import { BoltsCheck } from './BoltsCheck.tsx';
import { Found } from './Found.tsx';
import { fitKey } from './fitFound.ts';
import { choiceFor, useFit } from './fitStore.ts';
import { MountingSelect } from './MountingSelect.tsx';
import { Seen } from './Seen.tsx';
import { turnedSource } from './turnedSource.ts';
import { useFitStudy } from './useFitStudy.ts';
import { WantRows, wantsOf } from './WantRows.tsx';

/** The study of caliper and hub clocking: a map that turns both, what is wanted, and the best arrangements. */
export default function FitSheet({ corner, onClose }: { corner: OpenCorner; onClose(): void }) {
  const hasCaliper = corner.design.corner.parts.some(({ kind }) => kind === 'caliper');
  return (
    <SheetFrame title="Fit at the wheel" wide onClose={onClose}>
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
  const { design } = corner;
  const fit = useFit();
  const { wants: asked } = fit;
  const designKey = useMemo(() => fitKey(design), [design]);
  const chosen = choiceFor(fit, designKey);
  const wants = useMemo(() => wantsOf(design, asked), [design, asked]);
  const offered = useMemo(() => mountingsOf(design).map(choiceOf), [design]);
  const choice = chosen === 'all' || offered.includes(chosen) ? chosen : 'drawn';
  const { found, mountings, seen, progress, failure } = useFitStudy(corner, wants, choice);
  const drawn = drawnClockings(design);
  const turn = (key: string, mounting: Mounting, to: Clockings, hold: string | undefined) => {
    const source = sourceInHand(useDocument.getState());
    const turned = turnedSource(source, key, to);
    const isMounted = choiceOf(turned?.mounting ?? mounting) !== 'drawn';
    if (turned === undefined && isMounted) return;
    const label = `${isMounted ? `Mounted: ${mountingInWords(mounting)}; t` : 'T'}urned: ${clockingsInWords(to)}`;
    // The corner in hand will then be mounted as the one that is looked at; until it is, the study stays that of before.
    if (choice !== 'all') useFit.setState({ choice, next: { key, choice: 'drawn' } });
    void session.change(
      label,
      turned?.source ?? clockedSource(source, drawn, to),
      hold ?? 'turned by keys',
      hold !== undefined,
    );
  };
  return (
    <>
      <MountingSelect offered={offered} choice={choice} />
      <WantRows design={design} wants={wants} />
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
      {seen !== undefined && (
        <Seen
          seen={seen.of}
          mounting={seen.mounting}
          drawn={drawn}
          onTurn={(to, hold) => turn(seen.of.key, seen.mounting, to, hold)}
        />
      )}
      {found !== undefined && (
        <Found
          found={found}
          mountings={mountings}
          corner={corner}
          leastMarginMm={wants.leastMarginMm}
          drawn={drawn}
          onTurn={(k, to, hold) => turn(found.mounted[k].key, mountings[k], to, hold)}
        />
      )}
    </>
  );
}
