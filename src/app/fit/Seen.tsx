import { clockingsInWords, mountingInWords } from '../../report/clocking/clockingWords.ts';
import type { Mounting } from '../../studies/clocking/apply.ts';
import type { Clockings } from '../../studies/clocking/studyPairs.ts';
import { useView } from '../stores/viewStore.ts';
import { capital } from '../words.ts';
import { cellInWords, FitMap } from './FitMap.tsx';
import { type FitSeen, nameIn } from './fitFound.ts';
import { cellAt } from './fitPicture.ts';

interface SeenProps {
  seen: FitSeen;
  mounting: Mounting;
  drawn: Clockings;
  onTurn(to: Clockings, hold: string | undefined): void;
}

/** What is seen of a mounting before the study is done: it turns both as the map of the whole study does. */
export function Seen({ seen, mounting, drawn, onTurn }: SeenProps) {
  const unit = useView((view) => view.unit);
  const nameOf = nameIn(seen);
  return (
    <>
      <FitMap picture={seen.picture} nameOf={nameOf} drawn={drawn} candidates={[]} onTurn={onTurn} />
      <p data-testid="fit-seen">
        {capital(mountingInWords(mounting))}, {clockingsInWords(drawn)}:{' '}
        {cellInWords(cellAt(seen.picture, drawn), nameOf, unit)}.
      </p>
    </>
  );
}
