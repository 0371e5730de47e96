import { withoutAssumed } from '../../design/assumed.ts';
import type { Field } from '../../design/fields.ts';
import { useSession } from '../session.ts';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';
import { useSheet } from './sheetContext.ts';

/** Says of the value that a field began with that it is what the person has. */
export function useConfirmGuess({ path }: Field, spoken: string): () => void {
  const session = useSession();
  const { owner } = useSheet();
  return () => {
    const source = sourceInHand(useDocument.getState());
    const label = `${owner}, ${spoken.charAt(0).toLowerCase()}${spoken.slice(1)}: confirmed`;
    void session.change(label, withoutAssumed(source, path));
  };
}
