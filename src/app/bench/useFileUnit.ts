import { valueAt } from '../../design/path.ts';
import type { LengthUnit } from '../../report/figures.ts';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';

/** The unit of a length typed without one, as the file in hand declares it; undefined where it declares none. */
export function useFileUnit(): LengthUnit | undefined {
  const declared = useDocument((state) => valueAt(sourceInHand(state), ['unit']));
  return declared === 'mm' || declared === 'in' ? declared : undefined;
}
