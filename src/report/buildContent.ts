import type { PairState } from '../findings/findings.ts';
import { spacingInWords } from './betweenSteps.ts';
import { CAUTIONS } from './cautions.ts';
import type { Block, ReportContent } from './content.ts';
import { figuresIn } from './figures.ts';
import { assumedSection, inputSection } from './inputSection.ts';
import { limitSections } from './limitSection.ts';
import { alignmentOverSections, stopSections } from './limits/limitsSections.ts';
import { lockOutInWords } from './lockedOut.ts';
import { withinInWords } from './measuringError/measuringErrorInWords.ts';
import { measuringErrorSections } from './measuringError/measuringErrorSection.ts';
import { aboutSection, methodSection, notModelledSection } from './methodSections.ts';
import { mockupSections } from './mockup/mockupSection.ts';
import { pairSections } from './pairSections.ts';
import { alignmentSection, mapSection, reachSection } from './poseSections.ts';
import type { ReportInput } from './reportInput.ts';
import { treatmentSection } from './treatmentSection.ts';
import { verdictSentence, verdictWords } from './verdict.ts';

/** Contents of the clearance report. Throws an Error if the results belong to another design. */
export function buildContent(input: ReportInput): ReportContent {
  const { design, result, findings } = input;
  if (result.designHash !== design.hash)
    throw new Error('the results belong to another state of the design: sweep again, then make the report');
  const figures = figuresIn(input.unit);
  const { corner } = design;
  const state: PairState = findings.verdict === 'incomplete' ? 'unknown' : findings.verdict;
  const lockOut = lockOutInWords(findings);
  const lockOutItems = lockOut === '' ? [] : [`${lockOut} See Poses out of reach.`];
  const sentence = [verdictSentence(input, figures), ...withinInWords(input.measuringError)].join(' ');
  return {
    title: `Clearance report: ${corner.name}`,
    subtitle: `Front ${corner.side} corner. Daylight ${input.version}, ${input.date}, design ${design.hash.slice(0, 12)}.`,
    verdict: { state, words: verdictWords(state, design), sentence },
    sections: [
      {
        title: 'Cautions',
        blocks: [{ kind: 'caution', items: [...CAUTIONS, spacingInWords(input, figures), ...lockOutItems] }],
      },
      ...(corner.note === undefined ? [] : [{ title: 'Note', blocks: paragraphsOf(corner.note) }]),
      ...limitSections(input, figures),
      ...pairSections(input, figures),
      ...measuringErrorSections(input.measuringError, figures),
      ...mockupSections(input.mockup, figures),
      ...stopSections(input, figures),
      mapSection(input, figures),
      reachSection(input, figures),
      alignmentSection(corner, input.alignmentAtRideHeight, figures),
      ...alignmentOverSections(input, figures),
      assumedSection(design, figures),
      inputSection(design, figures),
      treatmentSection(input, figures),
      notModelledSection(),
      methodSection(input, figures),
      aboutSection(input),
    ],
  };
}

/** The paragraphs of a note, which blank lines separate. */
const paragraphsOf = (note: string): Block[] =>
  note
    .trim()
    .split(/\s*\n\s*\n\s*/)
    .map((text) => ({ kind: 'text', text }));
