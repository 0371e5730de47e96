import type { Side } from '../../../design/side.ts';
import type { LengthUnit } from '../../../report/figures.ts';
import { withOwnUnit } from '../../state/fileUnit.ts';
import { QUESTIONS, type QuestionKey } from './questions.ts';

interface About {
  name: string;
  side: Side;
  /** Unit of lengths typed without one, and of the file. */
  unit: LengthUnit;
}

/** The texts typed on the sheet of a new corner; empty if nothing is typed. */
export type Answers = About & Record<QuestionKey, string>;
/** Some of the answers. */
export type SomeAnswers = Partial<About> & Record<QuestionKey, string>;

export const noAnswers = (unit: LengthUnit): Answers => ({
  ...(Object.fromEntries(QUESTIONS.map(({ key }) => [key, ''])) as Record<QuestionKey, string>),
  name: '',
  side: 'left',
  unit,
});

/** The answers with another unit. Lengths typed without a unit get the old one written out, so that no length changes. */
export function withUnitOf(answers: Answers, unit: LengthUnit): Answers {
  const kept = QUESTIONS.filter(({ kind }) => kind === 'length').map(
    ({ key }) => [key, withOwnUnit(answers[key], answers.unit)] as const,
  );
  return { ...answers, ...(Object.fromEntries(kept) as SomeAnswers), unit };
}
