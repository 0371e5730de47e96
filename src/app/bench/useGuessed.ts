import type { Field } from '../../design/fields.ts';
import { sourceInHand, useDocument } from '../stores/documentStore.ts';
import { isGuess, useGuesses } from './guesses.ts';

/** Whether a field of the file in hand still is a guess. */
export function useGuessed(field: Field): boolean {
  const source = useDocument(sourceInHand);
  return useGuesses(({ guesses }) => isGuess(guesses, source, field));
}
