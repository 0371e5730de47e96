import { create } from 'zustand';
import type { Paper } from '../../../report/pdf/paper.ts';
import type { CuttingProcess } from '../../../report/templates/cutting.ts';

/** What is typed and chosen on the sheet of templates. Kept while sheets open and close, never part of a file. */
interface TemplatesState {
  /** Id of the plate that is shown; the first if it is undefined or gone. */
  plate: string | undefined;
  process: CuttingProcess | undefined;
  /** Undefined: Letter if figures are in inches, else A4. */
  paper: Paper | undefined;
  kerf: string;
  bendRadius: string;
  kFactor: string;
}

export const useTemplates = create<TemplatesState>(() => ({
  plate: undefined,
  process: undefined,
  paper: undefined,
  kerf: '',
  bendRadius: '',
  kFactor: '',
}));
