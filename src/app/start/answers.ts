import type { Side } from '../../design/side.ts';
import type { LengthUnit } from '../../report/figures.ts';
import { withOwnUnit } from '../bench/fileUnit.ts';
import { type Asked, QUESTIONS } from './questions.ts';

/** What was typed on the sheet of a new corner; empty where nothing was. */
export interface Answers extends Record<Asked, string> {
  name: string;
  side: Side;
  /** Of lengths typed without one, and of the file. */
  unit: LengthUnit;
}

export const noAnswers = (unit: LengthUnit): Answers => ({
  ...(Object.fromEntries(QUESTIONS.map(({ key }) => [key, ''])) as Record<Asked, string>),
  name: '',
  side: 'left',
  unit,
});

/** The answers with another unit: a length typed without a unit keeps its own, written out, so that no length changes. */
export function withUnitOf(answers: Answers, unit: LengthUnit): Answers {
  const kept = QUESTIONS.filter(({ kind }) => kind === 'length').map(
    ({ key }) => [key, withOwnUnit(answers[key], answers.unit)] as const,
  );
  return { ...answers, ...(Object.fromEntries(kept) as Partial<Answers>), unit };
}
