import { useMemo } from 'react';
import { clockingsInWords, mountingInWords } from '../../../report/clocking/clockingWords.ts';
import { clockedSource, type Mounting, mountingsOf } from '../../../studies/clocking/apply.ts';
import { ESTIMATE_STEP_DEG } from '../../../studies/clocking/firstEstimate.ts';
import { choiceOf } from '../../../studies/clocking/mountingChoice.ts';
import { type Clockings, drawnClockings } from '../../../studies/clocking/studyPairs.ts';
import { SheetFrame } from '../../kit/SheetFrame.tsx';
import { currentSource, useDocument } from '../../state/documentStore.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { useSession } from '../../state/session.ts';
import { fitKey } from '../../workers/fit/fitFound.ts';
import { BoltsCheck } from './BoltsCheck.tsx';
import { FitResult } from './FitResult.tsx';
import { choiceFor, useFit } from './fitStore.ts';
import { MountingSelect } from './MountingSelect.tsx';
import { PreviewMap } from './PreviewMap.tsx';
import { turnedSource } from './turnedSource.ts';
import { useFitStudy } from './useFitStudy.ts';
import { WantRows, wantsOf } from './WantRows.tsx';

/** The clocking study of caliper and hub: map, requirements and best arrangements; and the check of bolt access. */
export default function FitSheet({ corner, onClose }: { corner: OpenCorner; onClose(): void }) {
  const hasCaliper = corner.design.corner.parts.some(({ kind }) => kind === 'caliper');
  return (
    <SheetFrame title="Caliper and hub clocking" wide onClose={onClose}>
      <p className="bench-kind">
        Margins at ride height over the clocking of caliper and hub about the wheel axis. Press on the map to
        turn both. Arrow keys turn by 1°.
      </p>
      {hasCaliper ? (
        <Study corner={corner} />
      ) : (
        <p className="bench-problem">Add a caliper to study its clocking.</p>
      )}
      <h3>Bolt access</h3>
      <BoltsCheck corner={corner} />
    </SheetFrame>
  );
}

function Study({ corner }: { corner: OpenCorner }) {
  const session = useSession();
  const { design } = corner;
  const fit = useFit();
  const { wants: stored } = fit;
  const designKey = useMemo(() => fitKey(design), [design]);
  const chosen = choiceFor(fit, designKey);
  const wants = useMemo(() => wantsOf(design, stored), [design, stored]);
  const offered = useMemo(() => mountingsOf(design).map(choiceOf), [design]);
  const choice = chosen === 'all' || offered.includes(chosen) ? chosen : 'drawn';
  const { found, mountings, preview, progress, failure } = useFitStudy(corner, wants, choice);
  const drawn = drawnClockings(design);
  const turn = (key: string, mounting: Mounting, to: Clockings, hold: string | undefined) => {
    const source = currentSource(useDocument.getState());
    const turned = turnedSource(source, key, to, design.assets);
    const isMounted = choiceOf(turned?.mounting ?? mounting) !== 'drawn';
    if (turned === undefined && isMounted) return;
    const label = `${isMounted ? `Mounted: ${mountingInWords(mounting)}; t` : 'T'}urned: ${clockingsInWords(to)}`;
    // The corner gets the mounting that is shown. Until it has it, the study of the current mounting stays.
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
          {preview === undefined
            ? 'Computing'
            : `Preview, every ${ESTIMATE_STEP_DEG}°: nothing is proved yet. Computing`}
          {progress === undefined ? '' : `: ${progress.done} of ${progress.total} pairs`}
        </p>
      )}
      {preview !== undefined && (
        <PreviewMap
          preview={preview.of}
          mounting={preview.mounting}
          drawn={drawn}
          onTurn={(to, hold) => turn(preview.of.key, preview.mounting, to, hold)}
        />
      )}
      {found !== undefined && (
        <FitResult
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
