import type { FieldKind } from '../../../design/fields.ts';
import type { LayoutQuestion } from '../../../layouts/newCorner.ts';
import { LAYOUTS } from '../../../layouts/registry.ts';

/** A dimension on the sheet of a new corner. If it is empty, a usual value is used and listed as assumed. */
export interface Question {
  key: QuestionKey;
  label: string;
  /** What to measure. */
  help: string;
  kind: FieldKind;
  /** Path of its field in the file; undefined if points follow from it. */
  path: string | undefined;
}

/** The layout of a new corner: the first that has what the sheet needs. */
export const [START] = await Promise.all(
  LAYOUTS.flatMap(({ name, newCorner }) =>
    newCorner ? [newCorner().then((found) => ({ name, ...found }))] : [],
  ),
);

/** Path of a second field with the same answer. */
export const ALSO_AT: Partial<Record<QuestionKey, string>> = {
  boltCircle: 'parts[0].boltCircle',
  studCount: 'parts[0].boltCount',
  ...Object.fromEntries(
    START.questions.flatMap(({ key, paths }) => (paths.length > 1 ? [[key, paths[1]]] : [])),
  ),
};

/** Index of each part in the file of a new corner. */
export const PLACE = {
  wheel: 0,
  tyre: 1,
  hub: 2,
  rotor: 3,
  caliper: 4,
  upright: 5,
} as const;

const wheel = `parts[${PLACE.wheel}]`;
const hub = `parts[${PLACE.hub}]`;
const rotor = `parts[${PLACE.rotor}]`;
const body = `parts[${PLACE.caliper}].body`;

const question = <K extends string>(
  key: K,
  label: string,
  kind: FieldKind,
  path: string | undefined,
  help: string,
) => ({ key, label, kind, path, help });

const COMMON_GROUPS = [
  {
    title: 'Wheel and tyre',
    questions: [
      question(
        'diameterCode',
        'Rim diameter code',
        'number',
        `${wheel}.diameterCode`,
        'Inches as a plain number: 17.',
      ),
      question('width', 'Rim width', 'length', `${wheel}.width`, 'Between the bead seats, as sold.'),
      question(
        'backspacing',
        'Backspacing',
        'length',
        `${wheel}.backspacing`,
        'Mounting face to the inboard edge of the rim.',
      ),
      question(
        'offset',
        'Offset',
        'length',
        `${wheel}.offset`,
        "Instead of backspacing: mounting face to the rim's centre plane, positive if the face is outboard.",
      ),
      question(
        'designation',
        'Tyre size',
        'text',
        `parts[${PLACE.tyre}].designation`,
        '205/55R16 or 35x12.50R17LT.',
      ),
    ],
  },
  {
    title: 'Hub',
    questions: [
      question(
        'flangeDiameter',
        'Flange diameter',
        'length',
        `${hub}.flangeDiameter`,
        'Outside diameter of the flange that the wheel bolts to.',
      ),
      question(
        'boltCircle',
        'Bolt circle',
        'length',
        `${hub}.boltCircle`,
        'Diameter of the circle through the middle of the studs.',
      ),
      question('studCount', 'Studs', 'count', `${hub}.studCount`, 'Number of studs.'),
      question(
        'pilotDiameter',
        'Register diameter',
        'length',
        `${hub}.pilotDiameter`,
        'Diameter of the pilot that centres the wheel.',
      ),
    ],
  },
  {
    title: 'Brake',
    questions: [
      question(
        'rotorDiameter',
        'Rotor diameter',
        'length',
        `${rotor}.diameter`,
        'Outside diameter of the friction ring.',
      ),
      question(
        'rotorThickness',
        'Rotor thickness',
        'length',
        `${rotor}.thickness`,
        'Over both friction faces.',
      ),
      question(
        'caliperLength',
        'Caliper length',
        'length',
        `${body}.length`,
        'Across the body, square to the radius.',
      ),
      question(
        'caliperRadius',
        'Caliper outer radius',
        'length',
        `${body}.outerRadius`,
        'Wheel axis to the outermost point of the caliper.',
      ),
      question(
        'caliperOutboard',
        'Caliper outboard',
        'length',
        `${body}.outboardDepth`,
        "Rotor's outboard face to the outermost point of the caliper.",
      ),
      question(
        'caliperInboard',
        'Caliper inboard',
        'length',
        `${body}.inboardDepth`,
        "Rotor's inboard face to the innermost point of the caliper.",
      ),
    ],
  },
  {
    title: 'Travel and lock',
    questions: [
      question('bump', 'Bump', 'length', 'suspension.travel.bump', 'Rise of the wheel from ride height.'),
      question('droop', 'Droop', 'length', 'suspension.travel.droop', 'Fall of the wheel from ride height.'),
    ],
  },
] as const;

/** Key of a question that is asked for every layout. */
export type CommonKey = (typeof COMMON_GROUPS)[number]['questions'][number]['key'];
/** Key of any question. */
export type QuestionKey = string;

const ownQuestions = (group: string): Question[] =>
  START.questions
    .filter((one: LayoutQuestion) => one.group === group)
    .map(({ key, label, help, paths: [path] }) => question(key, label, 'length', path, help));

export const QUESTION_GROUPS: readonly { title: string; questions: readonly Question[] }[] = [
  ...COMMON_GROUPS.slice(0, -1),
  { title: 'Upright and arms', questions: [] },
  ...COMMON_GROUPS.slice(-1),
].map(({ title, questions }) => ({ title, questions: [...questions, ...ownQuestions(title)] }));

export const QUESTIONS: readonly Question[] = QUESTION_GROUPS.flatMap(({ questions }) => [...questions]);
