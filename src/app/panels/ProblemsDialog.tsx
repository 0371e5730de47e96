import { useSession } from '../session.ts';
import { useCorner } from '../stores/cornerStore.ts';
import { Dialog } from './Dialog.tsx';
import { ProblemList } from './ProblemList.tsx';

/** The problems of a file that was not opened; the corner that was open still is. */
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
        {problems.length === 1 ? 'One thing is' : `${problems.length} things are`} wrong with it.
        {repairable && ' Open it for repair to correct the values here.'}
        {corner !== undefined && ` ${repairable ? 'Otherwise ' : ''}${corner.design.corner.name} stays open.`}
      </p>
      <ProblemList problems={problems} />
    </Dialog>
  );
}
