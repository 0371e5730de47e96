import { isListedAssumed } from '../../../design/assumed.ts';
import type { Field } from '../../../design/fields.ts';
import { currentSource, useDocument } from '../../state/documentStore.ts';

/** Whether a field, or an item of a list, is still listed as assumed in the file. */
export const useGuessed = ({ path }: Field): boolean =>
  useDocument((state) => isListedAssumed(currentSource(state), path));
