import { createContext, useContext } from 'react';
import type { Path } from '../../../design/path.ts';
import type { OpenCorner } from '../../state/engine.ts';

/** Context of the rows of a sheet. */
export interface Sheet {
  /** The shown corner, the last valid one; undefined if no state of the file is valid. */
  corner: OpenCorner | undefined;
  /** Index into the corner's parts; undefined for a sheet that is not of a part. */
  part: number | undefined;
  /** Name of the part, for the list of changes. */
  owner: string;
  /** Receives the path of the focused field; undefined when the focus leaves. */
  onField?(path: Path | undefined): void;
  /** Path, as text, of the field that is chosen in the view. */
  chosen?: string;
}

export const SheetContext = createContext<Sheet | undefined>(undefined);

export function useSheet(): Sheet {
  const sheet = useContext(SheetContext);
  if (sheet === undefined) throw new Error('useSheet must be called inside a SheetContext');
  return sheet;
}
