import type { Session } from '../session.ts';
import { standingOf, useDocument } from '../stores/documentStore.ts';
import { isCalledOff, save, saveMarkedCopy } from './files.ts';
import { useKeeping } from './keepingStore.ts';

/**
 * Saves the file in hand. Where it has wrong values, asks first what to do (`SaveDialog`); where it was changed on the disk,
 * whether to write over that. Says in `useKeeping` why it could not be saved.
 */
export async function saveInHand(session: Session, options?: { elsewhere?: boolean }): Promise<void> {
  useKeeping.setState({ notSaved: undefined, copySaved: undefined });
  if (standingOf(useDocument.getState()) === 'building') await session.settled();
  if (standingOf(useDocument.getState()) === 'wrong') return useKeeping.setState({ asksToSave: true });
  await told(async () => {
    if ((await save(options)) === 'saved') return;
    const { fileName } = useDocument.getState();
    const overwrite = window.confirm(
      `${fileName} was changed on the disk since it was opened here, perhaps in another tab. Write over that?`,
    );
    if (overwrite) await save({ overwrite });
  });
}

/** Saves the state in hand with its wrong values as a marked copy, and says under which name. */
export const saveAnyway = (): Promise<void> =>
  told(async () => useKeeping.setState({ copySaved: await saveMarkedCopy() }));

async function told(saves: () => Promise<void>): Promise<void> {
  try {
    await saves();
  } catch (error) {
    if (!isCalledOff(error)) useKeeping.setState({ notSaved: (error as Error).message });
  }
}
