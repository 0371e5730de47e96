import { counted } from '../../report/figures.ts';
import { Dialog } from '../kit/Dialog.tsx';
import { ProblemList } from '../kit/ProblemList.tsx';
import { useCorner } from '../state/cornerStore.ts';
import { useSession } from '../state/session.ts';

/** The problems of a file that was not opened. The corner that was open stays open. */
export function ProblemsDialog() {
  const session = useSession();
  const rejected = useCorner((state) => state.rejected);
  const corner = useCorner((state) => state.corner);
  if (rejected === undefined) return null;
  const { fileName, problems, repairable } = rejected;
  return (
    <Dialog
      title={repairable ? `${fileName} has wrong values` : `${fileName} cannot be opened`}
      closeLabel={repairable ? 'Do not open' : 'Close'}
      actions={
        repairable ? (
          <button type="button" className="primary" onClick={() => void session.openForRepair()}>
            Open for repair
          </button>
        ) : undefined
      }
      onClose={() => useCorner.setState({ rejected: undefined })}
    >
      <p>
        The file has {counted(problems.length, 'problem')}.
        {repairable && ' Open it for repair to correct the values here.'}
        {corner !== undefined && ` ${repairable ? 'Otherwise ' : ''}${corner.design.corner.name} stays open.`}
      </p>
      <ProblemList problems={problems} />
    </Dialog>
  );
}
