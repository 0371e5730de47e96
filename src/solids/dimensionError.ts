import { builtLengthText, formatMm } from '../units/formatLength.ts';

/** Error for contradicting dimensions of a part, whose text can be given in the unit of the file. */
export class DimensionError extends Error {
  private readonly words: (length: (mm: number) => string) => string;

  /** `words` gives a sentence for the user, with each length formatted by `length`. The message is in mm. */
  constructor(words: (length: (mm: number) => string) => string) {
    super(words(formatMm));
    this.name = 'DimensionError';
    this.words = words;
  }

  /** The sentence, with lengths in the unit of the file. */
  inUnit(unit: 'mm' | 'in' | undefined): string {
    return this.words((mm) => builtLengthText(mm, unit));
  }
}
