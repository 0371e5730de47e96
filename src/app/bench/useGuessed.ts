import { isListedAssumed } from '../../design/assumed.ts';
import type { Field } from '../../design/fields.ts';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';

/** Whether a field of the file in hand, or any of a list's, still is the value that it began with. */
export const useGuessed = ({ path }: Field): boolean =>
  useDocument((state) => isListedAssumed(sourceInHand(state), path));
