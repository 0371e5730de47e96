import type { Problem } from '../../units/problem.ts';

/** Problems of a file, each with its path and the value in the file. */
export function ProblemList({ problems }: { problems: readonly Problem[] }) {
  return (
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
  );
}
