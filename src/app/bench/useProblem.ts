import { type Path, pathText } from '../../design/path.ts';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';
import { problemInWords } from './fieldText.ts';

/** What is wrong with the value at a path of the file in hand, in the bench's words; undefined where nothing is. */
export function useProblem(path: Path): string | undefined {
  const text = pathText(path);
  return useDocument((state) => {
    const problem = state.problems.find((one) => one.path === text);
    return problem && problemInWords(problem.message, sourceInHand(state));
  });
}
