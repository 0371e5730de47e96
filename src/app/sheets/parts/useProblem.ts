import { type Path, pathText } from '../../../design/path.ts';
import { currentSource, useDocument } from '../../state/documentStore.ts';
import { problemInWords } from '../../state/fieldText.ts';

/** The problem of the value at a path of the file, with the names of the screen; undefined if there is none. */
export function useProblem(path: Path): string | undefined {
  const text = pathText(path);
  return useDocument((state) => {
    const problem = state.problems.find((one) => one.path === text);
    return problem && problemInWords(problem.message, currentSource(state));
  });
}
