import { withAssumed } from '../../design/assumed.ts';
import type { Design } from '../../design/design.ts';
import { valueFromText } from '../../design/edit.ts';
import { parseDesign } from '../../design/parse.ts';
import type { Problem } from '../../design/problem.ts';
import { FORMAT, VERSION } from '../../design/schema.ts';
import { readTyreSize } from '../../design/tyreSize.ts';
import { HUB_FACE, withHubFace } from '../../solids/heldHub.ts';
import { lengthText } from '../../units/formatLength.ts';
import { parseLength } from '../../units/parseLength.ts';
import { inWords } from '../panels/inputText.ts';
import type { Answers } from './answers.ts';
import { guess, lengthValue } from './guess.ts';
import { partsOf } from './newParts.ts';
import { type NewPoints, pointsOf } from './newPoints.ts';
import { ALSO_AT, type Asked, QUESTIONS } from './questions.ts';
import { type Sizes, usualSizes } from './sizes.ts';

/** A corner file made of answers. */
export interface NewCorner {
  source: Record<string, unknown>;
  /** What the answers come to: what cannot be read counts as not answered. */
  sizes: Sizes;
  points: NewPoints;
  /** What is wrong with an answer, in a sentence; the file is sound where nothing is and `others` is empty. */
  wrong: Partial<Record<Asked, string>>;
  /** Contradictions that belong to no one answer. */
  others: readonly Problem[];
}

/** Lengths from which points follow are no shorter than this, mm: no such member is. */
const SHORTEST_MEMBER_MM = 100;

/** A corner file out of what was answered; usual values, listed as assumed, stand in for the rest. Never throws. */
export function newCorner(answers: Answers): NewCorner {
  const wrong: Partial<Record<Asked, string>> = {};
  const read = (key: Asked): number | undefined => {
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
      // Where the answer stands in the file, the reader of the file says so too.
      if (question.path === undefined) wrong[key] = (error as Error).message;
      return undefined;
    }
  };
  const given = Object.fromEntries(QUESTIONS.map(({ key }) => [key, read(key)])) as Record<
    Asked,
    number | undefined
  >;
  // A wheel is placed by the one that was answered, readable or not.
  if (answers.offset.trim() !== '') given.offset ??= 0;
  const sizes = usualSizes(given, tyreRadius(answers.designation), answers.unit);
  const points = pointsOf(sizes, answers.unit);
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

/** The file with the place of its hub's face, listed as assumed: another wheel then moves the wheel and not the hub. */
const withHubPlaced = (source: NewCorner['source'], design: Design): NewCorner['source'] =>
  withAssumed(withHubFace(source, design), HUB_FACE) as NewCorner['source'];

/** Puts what is wrong with a file beside the answer from which it came. */
export function placeProblems(problems: readonly Problem[]): Pick<NewCorner, 'others'> & {
  placed: Partial<Record<Asked, string>>;
} {
  const placed: Partial<Record<Asked, string>> = {};
  const beside: Problem[] = [];
  for (const problem of problems) {
    const question = QUESTIONS.find(
      ({ key, path }) => path === problem.path || ALSO_AT[key] === problem.path,
    );
    if (question === undefined) beside.push(problem);
    else placed[question.key] ??= problem.message;
  }
  // What is wrong with an answer itself may be why values beside it are.
  if (Object.keys(placed).length > 0) return { placed, others: [] };
  const others: Problem[] = [];
  for (const problem of beside) {
    const against = answeredBeside(problem);
    if (against === undefined) others.push(problem);
    else placed[against] ??= `goes against ${fieldOf(problem.path)}, which ${problem.message}`;
  }
  return { placed, others };
}

/** `dropWidth` of `parts[0].dropWidth` as people say it: "drop width". */
const fieldOf = (path: string): string => inWords(path.replace(/^.*\./, ''));

/** The answer that a problem of a value nobody was asked for speaks of: it stands in the same part. */
function answeredBeside({ path, message }: Problem): Asked | undefined {
  const owner = /^parts\[\d+\]/.exec(path)?.[0];
  if (owner === undefined || owner === path) return undefined;
  const named = (asked: string | undefined) =>
    asked?.startsWith(`${owner}.`) === true &&
    new RegExp(`\\b${asked.replace(/^.*\./, '')}\\b`).test(message);
  return QUESTIONS.find(({ key, path: at }) => named(at) || named(ALSO_AT[key]))?.key;
}

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
  const answer = (key: Asked): unknown => {
    const question = QUESTIONS.find((one) => one.key === key);
    const typed = question === undefined ? undefined : valueFromText(question, answers[key]);
    if (typed !== undefined) return typed;
    if (key === 'designation') return guess(sizes.designation);
    const size = sizes[key];
    return size === undefined
      ? undefined
      : guess(question?.kind === 'length' ? lengthValue(size, unit) : size);
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

/** Lengths that stand in no field of the file, as they were typed: points were placed by them. */
function noteOf(answers: Answers): { note?: string } {
  const typed = QUESTIONS.filter(({ key, path }) => path === undefined && answers[key].trim() !== '').map(
    ({ key, label }) => `${label.toLowerCase()} ${answers[key].trim()}`,
  );
  return typed.length === 0 ? {} : { note: `Points placed by what was measured first: ${typed.join('; ')}.` };
}

/** The file's name after that of its corner. */
export const fileNameOf = (name: string): string =>
  `${
    name
      .normalize('NFKD')
      .replace(/\p{M}/gu, '')
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-|-$/g, '') || 'new'
  }.corner.json`;
