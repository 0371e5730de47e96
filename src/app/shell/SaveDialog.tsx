import { Dialog } from '../kit/Dialog.tsx';
import { ProblemList } from '../kit/ProblemList.tsx';
import { useCorner } from '../state/cornerStore.ts';
import { currentSource, useDocument } from '../state/documentStore.ts';
import { markedName } from '../state/keep/files.ts';
import { useSaveState } from '../state/keep/saveState.ts';
import { saveCopyWithProblems } from '../state/keep/saving.ts';
import { goToPlace, problemPlaces } from '../state/problemPlaces.ts';

/** Shown before a file with wrong values is saved: offers to go to the problem, save a marked copy, or not save. */
export function SaveDialog() {
  const asks = useSaveState((state) => state.saveDialogOpen);
  const { fileName, problems } = useDocument();
  const source = useDocument(currentSource);
  const corner = useCorner((state) => state.corner);
  if (!asks) return null;
  const close = () => useSaveState.setState({ saveDialogOpen: false });
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
              void saveCopyWithProblems();
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
        With these values the file opens for repair only, and the command line rejects it. “Save anyway”
        writes a copy, {markedName(fileName)}, and leaves {fileName} unchanged.
      </p>
      <ProblemList problems={problems} />
    </Dialog>
  );
}
