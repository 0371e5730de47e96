import { goToPlace, problemPlaces } from '../bench/problemPlaces.ts';
import { Dialog } from '../panels/Dialog.tsx';
import { ProblemList } from '../panels/ProblemList.tsx';
import { useCorner } from '../stores/cornerStore.ts';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';
import { markedName } from './files.ts';
import { useKeeping } from './keepingStore.ts';
import { saveAnyway } from './saving.ts';

/** Shown before a file with wrong values is saved: go to the problem, save a marked copy, or do not save. */
export function SaveDialog() {
  const asks = useKeeping((state) => state.asksToSave);
  const { fileName, problems } = useDocument();
  const source = useDocument(sourceInHand);
  const corner = useCorner((state) => state.corner);
  if (!asks) return null;
  const close = () => useKeeping.setState({ asksToSave: false });
  const [place] = problemPlaces(source, problems);
  return (
    <Dialog
      title={`${fileName} has wrong values`}
      closeLabel="Do not save"
      onClose={close}
      actions={
        <>
          <button
            type="button"
            onClick={() => {
              close();
              void saveAnyway();
            }}
          >
            Save anyway
          </button>
          <button
            type="button"
            className="primary"
            onClick={() => {
              close();
              if (place !== undefined) goToPlace(source, place, corner);
            }}
          >
            Go to the problem
          </button>
        </>
      }
    >
      <p>
        With these values the file opens for repair only, and the command line refuses it. “Save anyway”
        writes a copy, {markedName(fileName)}, and leaves {fileName} as it is.
      </p>
      <ProblemList problems={problems} />
    </Dialog>
  );
}
