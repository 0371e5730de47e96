import { useCorner } from '../stores/cornerStore.ts';
import { Dialog } from './Dialog.tsx';

/** What is wrong with a file that could not be opened. Whatever was open before still is. */
export function ProblemsDialog() {
  const rejected = useCorner((state) => state.rejected);
  const corner = useCorner((state) => state.corner);
  if (rejected === undefined) return null;
  const { fileName, problems } = rejected;
  return (
    <Dialog
      title={`${fileName} cannot be opened`}
      closeLabel="Close"
      onClose={() => useCorner.setState({ rejected: undefined })}
    >
      <p>
        {problems.length === 1 ? 'One thing is' : `${problems.length} things are`} wrong with it.
        {corner !== undefined && ` ${corner.design.corner.name} stays open.`}
      </p>
      <ul className="problems">
        {problems.map((problem) => (
          <li key={`${problem.path} ${problem.message}`}>
            {problem.path !== '' && <code className="problem-path">{problem.path}</code>}
            {problem.found !== '' && (
              <span className="problem-found">
                found <code>{problem.found}</code>
              </span>
            )}
            <span className="problem-message">{problem.message}</span>
          </li>
        ))}
      </ul>
    </Dialog>
  );
}
