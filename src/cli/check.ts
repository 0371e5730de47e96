import type { Design, InputRecord } from '../design/design.ts';
import { counted, type Figures, figuresIn } from '../report/figures.ts';
import { findingsJson } from '../report/findingsJson.ts';
import { valueInWords } from '../report/inputSection.ts';
import { limitTable } from '../report/limitTable.ts';
import { travelInWords } from '../report/pose.ts';
import { shownInput, steeringFigures } from '../report/steering.ts';
import type { Setup } from '../sweep/setUp.ts';
import { visible } from '../units/plainText.ts';
import type { Command } from './command.ts';
import { programVersion } from './context.ts';
import { EXIT } from './exit.ts';
import { exitOf, MESH_OPTIONS, measureRideHeight, whyUnreachable } from './measure.ts';
import { required, unitOf } from './options.ts';
import { heading, pairLines, summary } from './words.ts';

export const check: Command = {
  name: 'check',
  operands: 'FILE',
  summary: 'read a corner file, build its parts and measure every pair at ride height',
  details: [
    'Also checks that the suspension reaches the ends of its travel and steering, and lists the assumed values.',
  ],
  options: [...MESH_OPTIONS, 'unit', 'far', 'all', 'json'],
  async run(typed, context) {
    const file = required('the corner file', typed.file);
    unitOf(typed);
    const measured = await measureRideHeight(file, typed, context);
    const unit = unitOf(typed, measured.design.corner.unit);
    const figures = figuresIn(unit);
    const unreachable = unreachableEnds(measured.setup, figures);
    if (typed.values.has('json')) context.print(findingsJson(measured, await programVersion()).trimEnd());
    else
      context.print(
        [
          heading(measured),
          '',
          ...assumedInWords(measured.design, figures),
          '',
          unreachable.length === 0
            ? 'The suspension reaches both ends of its travel at either lock and straight ahead.'
            : 'The suspension does not reach:',
          ...unreachable.map((line) => `  ${line}`),
          '',
          `At ride height, straight ahead, in ${figures.unitName}:`,
          ...pairLines(measured, typed, unit),
          '',
          ...limitTable(measured, figures),
          summary(measured, figures),
        ].join('\n'),
      );
    const code = exitOf(measured.findings);
    return code !== EXIT.short && unreachable.length > 0 ? EXIT.unknown : code;
  },
};

function assumedInWords(design: Design, figures: Figures): string[] {
  const assumed = design.inputs.filter((input) => input.assumed);
  if (assumed.length === 0) return ['No value is assumed.'];
  const listOf = (why: string, inputs: readonly InputRecord[]) =>
    inputs.length === 0
      ? []
      : [
          `Assumed, because the file ${why} (${counted(inputs.length, 'value')}):`,
          ...inputs.map((input) => visible(`  ${input.path}: ${valueInWords(input, figures)}`)),
        ];
  return [
    ...listOf(
      'leaves them out',
      assumed.filter(({ typed }) => typed === undefined),
    ),
    ...listOf(
      'lists them as assumed',
      assumed.filter(({ typed }) => typed !== undefined),
    ),
  ];
}

/** Each end of travel, at both locks and straight ahead, that the mechanism does not reach, with the reason. */
function unreachableEnds(setup: Setup, figures: Figures): string[] {
  const { corner } = setup.design;
  const { bump, droop } = corner.suspension.travel;
  return [...new Set([bump, 0, -droop])].flatMap((travelMm) =>
    [-1, 0, 1].flatMap((steer) => {
      const why = whyUnreachable(setup, travelMm, steer);
      if (why === undefined) return [];
      const { noun, signed, addUnit } = steeringFigures(corner, figures);
      const input = addUnit(signed(shownInput(corner, steer)));
      return [`${travelInWords(travelMm, figures)}, ${noun} ${input}: ${why}`];
    }),
  );
}
