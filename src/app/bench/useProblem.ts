import { type Path, pathText } from '../../design/path.ts';
import { useDocument } from '../stores/documentStore.ts';

/** What is wrong with the value at a path of the file in hand; undefined where nothing is. */
export function useProblem(path: Path): string | undefined {
  const text = pathText(path);
  return useDocument(({ problems }) => problems.find((problem) => problem.path === text)?.message);
}
