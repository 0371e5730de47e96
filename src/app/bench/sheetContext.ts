import { createContext, useContext } from 'react';
import type { Path } from '../../design/path.ts';
import type { OpenCorner } from '../engine.ts';

/** What the rows of a sheet belong to. */
export interface Sheet {
  /** What is shown: the last sound corner; undefined where no state of the file is one. */
  corner: OpenCorner | undefined;
  /** Index into the corner's parts; undefined for what is no part. */
  part: number | undefined;
  /** Name of the part, for the list of changes. */
  owner: string;
  /** Told which field is in hand; undefined when none is any more. */
  onField?(path: Path | undefined): void;
  /** Path, as text, of the field that is chosen in the view. */
  chosen?: string;
}

export const SheetContext = createContext<Sheet | undefined>(undefined);

export function useSheet(): Sheet {
  const sheet = useContext(SheetContext);
  if (sheet === undefined) throw new Error('this row stands outside a sheet');
  return sheet;
}
