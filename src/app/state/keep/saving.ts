import { statusOf, useDocument } from '../documentStore.ts';
import type { Session } from '../session.ts';
import { isCancelled, save, saveMarkedCopy } from './files.ts';
import { useSaveState } from './saveState.ts';

/**
 * Saves the open file. If it has wrong values, opens `SaveDialog` instead; if it was changed on disk, asks whether to
 * overwrite it. If it cannot be saved, puts the reason into `useSaveState`.
 */
export async function saveFile(session: Session, options?: { elsewhere?: boolean }): Promise<void> {
  useSaveState.setState({ notSaved: undefined, copySaved: undefined, filesSaved: undefined });
  if (statusOf(useDocument.getState()) === 'building') await session.settled();
  if (statusOf(useDocument.getState()) === 'wrong') return useSaveState.setState({ saveDialogOpen: true });
  await reportFailure(async () => {
    const saved = await save(options);
    if (saved.kind === 'saved') {
      if (saved.names.length > 1) useSaveState.setState({ filesSaved: saved.names });
      return;
    }
    const { fileName } = useDocument.getState();
    const overwrite = window.confirm(
      `${fileName} was changed on the disk since it was opened here, perhaps in another tab. Overwrite it?`,
    );
    if (overwrite) await save({ overwrite });
  });
}

/** Saves the current state with its wrong values as a marked copy, and puts the names of its files into `useSaveState`. */
export const saveCopyWithProblems = (): Promise<void> =>
  reportFailure(async () => useSaveState.setState({ copySaved: await saveMarkedCopy() }));

/** Runs a save; if it fails, puts the reason into `useSaveState`. */
async function reportFailure(run: () => Promise<void>): Promise<void> {
  try {
    await run();
  } catch (error) {
    if (!isCancelled(error)) useSaveState.setState({ notSaved: (error as Error).message });
  }
}
