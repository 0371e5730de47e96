import type { Answers } from './answers.ts';
import { lengthValue } from './guess.ts';
import type { Question } from './questions.ts';
import type { Sizes } from './sizes.ts';

/** The value that stands in for an answer while it is empty, with its unit; empty where none does. */
export function usualText(question: Question | undefined, sizes: Sizes, { unit }: Answers): string {
  if (question === undefined) return '';
  const size = sizes[question.key];
  if (typeof size !== 'number') return size ?? '';
  return question.kind === 'length'
    ? `${String(lengthValue(size, unit)).replace('-', '−')} ${unit}`
    : String(size);
}
