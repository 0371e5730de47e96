import { withAssumed } from '../../../design/assumed.ts';
import type { Design } from '../../../design/design.ts';
import { valueFromText } from '../../../design/edit.ts';
import { parseDesign } from '../../../design/parse.ts';
import { FORMAT, VERSION } from '../../../design/schema.ts';
import { readTyreSize } from '../../../design/tyreSize.ts';
import type { NewPoints } from '../../../layouts/newCorner.ts';
import { HUB_FACE, withHubFace } from '../../../solids/heldHub.ts';
import { lengthText } from '../../../units/formatLength.ts';
import { parseLength } from '../../../units/parseLength.ts';
import { inWords } from '../../../units/plainText.ts';
import type { Problem } from '../../../units/problem.ts';
import type { Answers } from './answers.ts';
import { guess, lengthValue, roundMm } from './guess.ts';
import { partsOf } from './newParts.ts';
import { ALSO_AT, QUESTIONS, type QuestionKey, START } from './questions.ts';
import { newCornerSizes, type Sizes, sizeOf, usualSizes } from './sizes.ts';

/** A corner file from answers. */
export interface NewCorner {
  source: Record<string, unknown>;
  /** Sizes from the answers; an answer that cannot be read counts as missing. */
  sizes: Sizes;
  points: NewPoints;
  /** Problems by answer. The file is valid if there are none and `others` is empty. */
  wrong: Partial<Record<QuestionKey, string>>;
  /** Problems that do not belong to one answer. */
  others: readonly Problem[];
}

/** Least length of a member from which points follow, mm. */
const SHORTEST_MEMBER_MM = 100;

/** A corner file from answers. Missing answers are replaced by usual values, listed as assumed. Never throws. */
export function newCorner(answers: Answers): NewCorner {
  const wrong: Partial<Record<QuestionKey, string>> = {};
  const read = (key: QuestionKey): number | undefined => {
    const text = answers[key].trim();
    const question = QUESTIONS.find((one) => one.key === key);
    if (text === '' || question === undefined) return undefined;
    if (question.kind !== 'length') {
      const number = valueFromText({ kind: 'number' }, text);
      return typeof number === 'number' ? number : undefined;
    }
    try {
      const { mm } = parseLength(text, { unit: answers.unit });
      if (question.path === undefined && mm < SHORTEST_MEMBER_MM) {
        const least = lengthText(SHORTEST_MEMBER_MM, answers.unit, 'up');
        wrong[key] = `must be at least ${least}, and is ${lengthText(mm, answers.unit)}`;
        return undefined;
      }
      return mm > 0 || key === 'offset' ? mm : undefined;
    } catch (error) {
      // If the answer is a field of the file, the parser reports the problem.
      if (question.path === undefined) wrong[key] = (error as Error).message;
      return undefined;
    }
  };
  const given = Object.fromEntries(QUESTIONS.map(({ key }) => [key, read(key)])) as Record<
    QuestionKey,
    number | undefined
  >;
  // A typed offset places the wheel even if it cannot be read.
  if (answers.offset.trim() !== '') given.offset ??= 0;
  const sizes = usualSizes(given, tyreRadius(answers.designation), answers.unit);
  const points = START.points(newCornerSizes(sizes), (mm) => roundMm(mm, answers.unit));
  const source = sourceOf(answers, sizes, points);
  const parsed = parseDesign(JSON.stringify(source));
  const problems = parsed.kind === 'bad' ? parsed.problems : [];
  const { placed, others } = placeProblems(problems);
  return {
    source: parsed.kind === 'bad' ? source : withHubPlaced(source, parsed.design),
    sizes,
    points,
    wrong: { ...placed, ...wrong },
    others,
  };
}

/** The file with its hub face listed as assumed, so that another wheel does not move the hub. */
const withHubPlaced = (source: NewCorner['source'], design: Design): NewCorner['source'] =>
  withAssumed(withHubFace(source, design), HUB_FACE) as NewCorner['source'];

/** Assigns the problems of a file to the answers from which they come. */
export function placeProblems(problems: readonly Problem[]): Pick<NewCorner, 'others'> & {
  placed: Partial<Record<QuestionKey, string>>;
} {
  const placed: Partial<Record<QuestionKey, string>> = {};
  const beside: Problem[] = [];
  for (const problem of problems) {
    const key = answerAt(problem.path);
    if (key === undefined) beside.push(problem);
    else placed[key] ??= problem.message;
  }
  // A wrong answer may be the cause of the other problems.
  if (Object.keys(placed).length > 0) return { placed, others: [] };
  const others: Problem[] = [];
  for (const problem of beside) {
    const against = problem.against === undefined ? undefined : answerAt(problem.against);
    if (against === undefined) others.push(problem);
    else placed[against] ??= `conflicts with ${fieldOf(problem.path)}, which ${problem.message}`;
  }
  return { placed, others };
}

/** The answer that a path of the file holds; undefined if there is none. */
const answerAt = (at: string): QuestionKey | undefined =>
  QUESTIONS.find(({ key, path }) => path === at || ALSO_AT[key] === at)?.key;

/** Name of the field at a path: "drop width" for `parts[0].dropWidth`. */
const fieldOf = (path: string): string => inWords(path.replace(/^.*\./, ''));

function tyreRadius(designation: string): number | undefined {
  try {
    return readTyreSize(designation).overallDiameterMm / 2;
  } catch {
    return undefined;
  }
}

function sourceOf(answers: Answers, sizes: Sizes, points: NewPoints): Record<string, unknown> {
  const { unit, side } = answers;
  /** An answer as typed, or the usual value. */
  const answer = (key: QuestionKey): unknown => {
    const question = QUESTIONS.find((one) => one.key === key);
    const typed = question === undefined ? undefined : valueFromText(question, answers[key]);
    if (typed !== undefined) return typed;
    if (key === 'designation') return guess(sizes.designation);
    const size = sizeOf(sizes, key);
    return size === undefined
      ? undefined
      : guess(question?.kind === 'length' ? lengthValue(Number(size), unit) : size);
  };
  const { suspension, parts } = partsOf(answer, sizes, points, unit);
  return {
    format: FORMAT,
    version: VERSION,
    name: answers.name.trim() || `New corner, front ${side}`,
    ...noteOf(answers),
    side,
    unit,
    suspension,
    parts,
  };
}

/** Note with the typed lengths that have no field in the file: points are placed from them. */
function noteOf(answers: Answers): { note?: string } {
  const typed = QUESTIONS.filter(({ key, path }) => path === undefined && answers[key].trim() !== '').map(
    ({ key, label }) => `${label.toLowerCase()} ${answers[key].trim()}`,
  );
  return typed.length === 0 ? {} : { note: `Points placed from these measurements: ${typed.join('; ')}.` };
}

/** File name from the name of the corner. */
export const fileNameOf = (name: string): string =>
  `${
    name
      .normalize('NFKD')
      .replace(/\p{M}/gu, '')
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-|-$/g, '') || 'new'
  }.corner.json`;
