import { builtLengthText, formatMm } from '../units/formatLength.ts';

/** Dimensions of a part that contradict, in words that can be put in the unit of the file. */
export class DimensionError extends Error {
  private readonly words: (length: (mm: number) => string) => string;

  /** `words` is a sentence for the person, with each length in it made by `length`; the message has mm. */
  constructor(words: (length: (mm: number) => string) => string) {
    super(words(formatMm));
    this.name = 'DimensionError';
    this.words = words;
  }

  /** The sentence with lengths in the unit of the file. */
  inUnit(unit: 'mm' | 'in' | undefined): string {
    return this.words((mm) => builtLengthText(mm, unit));
  }
}
