import { withoutAssumed } from '../../../design/assumed.ts';
import type { Field } from '../../../design/fields.ts';
import { currentSource, useDocument } from '../../state/documentStore.ts';
import { useSession } from '../../state/session.ts';
import { useSheet } from './sheetContext.ts';

/** Returns a function that confirms a guess: it removes the field from the list of assumed values. */
export function useConfirmGuess({ path }: Field, spoken: string): () => void {
  const session = useSession();
  const { owner } = useSheet();
  return () => {
    const source = currentSource(useDocument.getState());
    const label = `${owner}, ${spoken.charAt(0).toLowerCase()}${spoken.slice(1)}: confirmed`;
    void session.change(label, withoutAssumed(source, path));
  };
}
