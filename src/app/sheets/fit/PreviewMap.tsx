import { clockingsInWords, mountingInWords } from '../../../report/clocking/clockingWords.ts';
import type { Mounting } from '../../../studies/clocking/apply.ts';
import type { Clockings } from '../../../studies/clocking/studyPairs.ts';
import { capital } from '../../kit/words.ts';
import { useView } from '../../state/viewStore.ts';
import { type FitPreview, nameIn } from '../../workers/fit/fitFound.ts';
import { cellAt } from '../../workers/fit/fitPicture.ts';
import { cellInWords, FitMap } from './FitMap.tsx';

interface PreviewMapProps {
  preview: FitPreview;
  mounting: Mounting;
  drawn: Clockings;
  onTurn(to: Clockings, hold: string | undefined): void;
}

/** The map of one mounting before the study is done. Nothing in it is proved; a press turns both as on the final map. */
export function PreviewMap({ preview, mounting, drawn, onTurn }: PreviewMapProps) {
  const unit = useView((view) => view.unit);
  const nameOf = nameIn(preview);
  return (
    <>
      <FitMap picture={preview.picture} nameOf={nameOf} drawn={drawn} candidates={[]} onTurn={onTurn} />
      <p data-testid="fit-seen">
        {capital(mountingInWords(mounting))}, {clockingsInWords(drawn)}:{' '}
        {cellInWords(cellAt(preview.picture, drawn), nameOf, unit)}.
      </p>
    </>
  );
}
