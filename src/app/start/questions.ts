import type { FieldKind } from '../../design/fields.ts';

/** What a new corner is asked for first. Where nothing is typed, a usual value stands in and counts as assumed. */
export interface Question {
  key: Asked;
  label: string;
  /** From where to where it is measured. */
  help: string;
  kind: FieldKind;
  /** Where the answer stands in the file; undefined where points follow from it. */
  path: string | undefined;
}

/** Where an answer stands a second time. */
export const ALSO_AT: Partial<Record<Asked, string>> = {
  boltCircle: 'parts[0].boltCircle',
  studCount: 'parts[0].boltCount',
  rack: 'suspension.steering.rackInboard',
};

/** Where each part stands in the file of a new corner. */
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

const ask = <K extends string>(
  key: K,
  label: string,
  kind: FieldKind,
  path: string | undefined,
  help: string,
) => ({ key, label, kind, path, help });

export const QUESTION_GROUPS = [
  {
    title: 'Wheel and tyre',
    questions: [
      ask(
        'diameterCode',
        'Rim diameter code',
        'number',
        `${wheel}.diameterCode`,
        'Inches as a plain number: 17.',
      ),
      ask('width', 'Rim width', 'length', `${wheel}.width`, 'Between the bead seats, as sold.'),
      ask(
        'backspacing',
        'Backspacing',
        'length',
        `${wheel}.backspacing`,
        'Mounting face to the inboard edge of the rim.',
      ),
      ask(
        'offset',
        'or offset',
        'length',
        `${wheel}.offset`,
        "In place of backspacing: mounting face to the rim's centre plane, positive with the face outboard.",
      ),
      ask(
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
      ask(
        'flangeDiameter',
        'Flange diameter',
        'length',
        `${hub}.flangeDiameter`,
        'Outside of the flange that the wheel bolts to.',
      ),
      ask(
        'boltCircle',
        'Bolt circle',
        'length',
        `${hub}.boltCircle`,
        'Circle through the middle of the studs.',
      ),
      ask('studCount', 'Studs', 'count', `${hub}.studCount`, 'How many.'),
      ask(
        'pilotDiameter',
        'Register diameter',
        'length',
        `${hub}.pilotDiameter`,
        'Of the pilot that centres the wheel.',
      ),
    ],
  },
  {
    title: 'Brake',
    questions: [
      ask('rotorDiameter', 'Rotor diameter', 'length', `${rotor}.diameter`, 'Outside of the friction ring.'),
      ask('rotorThickness', 'Rotor thickness', 'length', `${rotor}.thickness`, 'Over both friction faces.'),
      ask(
        'caliperLength',
        'Caliper length',
        'length',
        `${body}.length`,
        'Across the body, square to the radius.',
      ),
      ask(
        'caliperRadius',
        'Caliper outer radius',
        'length',
        `${body}.outerRadius`,
        'Wheel axis to the outermost of the caliper.',
      ),
      ask(
        'caliperOutboard',
        'Caliper outboard',
        'length',
        `${body}.outboardDepth`,
        "From the rotor's outboard face outboard.",
      ),
      ask(
        'caliperInboard',
        'Caliper inboard',
        'length',
        `${body}.inboardDepth`,
        "From the rotor's inboard face inboard.",
      ),
    ],
  },
  {
    title: 'Upright and arms',
    questions: [
      ask(
        'kingpin',
        'Kingpin length',
        'length',
        undefined,
        'Centre of the lower joint to that of the upper.',
      ),
      ask(
        'lowerArm',
        'Lower arm',
        'length',
        undefined,
        'Line of its inner pivots to the centre of its joint.',
      ),
      ask(
        'upperArm',
        'Upper arm',
        'length',
        undefined,
        'Line of its inner pivots to the centre of its joint.',
      ),
    ],
  },
  {
    title: 'Travel and lock',
    questions: [
      ask('bump', 'Bump', 'length', 'suspension.travel.bump', 'Rise of the wheel from ride height.'),
      ask('droop', 'Droop', 'length', 'suspension.travel.droop', 'Fall of the wheel from ride height.'),
      ask(
        'rack',
        'Rack travel',
        'length',
        'suspension.steering.rackOutboard',
        'From straight ahead to one lock; the other is taken as the same.',
      ),
    ],
  },
] as const;

export type Asked = (typeof QUESTION_GROUPS)[number]['questions'][number]['key'];

export const QUESTIONS: readonly Question[] = QUESTION_GROUPS.flatMap(({ questions }) => [...questions]);
