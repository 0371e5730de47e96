import { valueAt } from '../../design/path.ts';
import type { LengthUnit } from '../../report/figures.ts';
import { currentSource, useDocument } from './documentStore.ts';

/** Unit that the open file declares for lengths typed without one; undefined if it declares none. */
export function useFileUnit(): LengthUnit | undefined {
  const declared = useDocument((state) => valueAt(currentSource(state), ['unit']));
  return declared === 'mm' || declared === 'in' ? declared : undefined;
}
