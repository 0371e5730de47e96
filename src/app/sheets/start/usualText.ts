import type { Answers } from './answers.ts';
import { lengthValue } from './guess.ts';
import type { Question } from './questions.ts';
import { type Sizes, sizeOf } from './sizes.ts';

/** The usual value of an empty answer, with its unit; empty if there is none. */
export function usualText(question: Question | undefined, sizes: Sizes, { unit }: Answers): string {
  if (question === undefined) return '';
  const size = sizeOf(sizes, question.key);
  if (typeof size !== 'number') return size ?? '';
  return question.kind === 'length'
    ? `${String(lengthValue(size, unit)).replace('-', '−')} ${unit}`
    : String(size);
}
