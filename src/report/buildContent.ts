import type { PairState } from '../findings/findings.ts';
import { againstSections } from './against.ts';
import { boltsSections } from './bolts/boltsSection.ts';
import type { Block, ReportContent } from './content.ts';
import { figuresIn } from './figures.ts';
import { fitSection } from './fitSection.ts';
import { inputSection } from './inputSection.ts';
import { limitSections } from './limitSection.ts';
import { alignmentOverSections, stopSections } from './limits/limitsSections.ts';
import { withinInWords } from './measuringError/measuringErrorInWords.ts';
import { measuringErrorSections } from './measuringError/measuringErrorSection.ts';
import { aboutSection, methodSection, notModelledSection } from './methodSections.ts';
import { mockupSections } from './mockup/mockupSection.ts';
import { pageOneSections } from './pageOne.ts';
import { numberedRows } from './pairRow.ts';
import { pairsSection } from './pairSections.ts';
import type { ReportPictures } from './pictures.ts';
import { alignmentSection, mapSection, reachSection } from './poseSections.ts';
import type { ReportInput } from './reportInput.ts';
import { signOffSection } from './signOff.ts';
import { spotSections } from './spotSections.ts';
import { treatmentSection } from './treatmentSection.ts';
import { verdictSentence, verdictWords } from './verdict.ts';

/**
 * Contents of the clearance report: page one, a block for each of the tightest pairs, then tables. Throws an Error if the
 * results belong to another design.
 */
export function buildContent(input: ReportInput, pictures: ReportPictures): ReportContent {
  const { design, result, findings } = input;
  if (result.designHash !== design.hash)
    throw new Error('the results belong to another state of the design: sweep again, then make the report');
  const figures = figuresIn(input.unit);
  const { corner } = design;
  const state: PairState = findings.verdict === 'incomplete' ? 'unknown' : findings.verdict;
  const rows = numberedRows(input, figures);
  const sentence = [verdictSentence(input, figures), ...withinInWords(input.measuringError)].join(' ');
  return {
    title: `Clearance report: ${corner.name}`,
    subtitle: `Front ${corner.side} corner. Daylight ${input.version}, ${input.date}, design ${design.hash.slice(0, 12)}.`,
    verdict: { state, words: verdictWords(state, design), sentence },
    sections: [
      ...pageOneSections(input, rows, pictures, figures),
      ...againstSections(input, figures),
      ...spotSections(input, rows, pictures, figures),
      ...(corner.note === undefined ? [] : [{ title: 'Note', blocks: paragraphsOf(corner.note) }]),
      pairsSection(input, rows, pictures, figures),
      ...limitSections(input, figures),
      ...measuringErrorSections(input.measuringError, figures),
      ...stopSections(input, figures),
      mapSection(input, pictures.map, figures),
      reachSection(input, figures),
      alignmentSection(corner, input.alignmentAtRideHeight, figures),
      ...alignmentOverSections(input, figures),
      fitSection(input, figures),
      ...boltsSections(input),
      inputSection(design, figures),
      methodSection(input, figures),
      treatmentSection(input, figures),
      notModelledSection(),
      aboutSection(input),
      ...mockupSections(input.mockup, figures),
      signOffSection(),
    ],
  };
}

/** The paragraphs of a note, which blank lines separate. */
const paragraphsOf = (note: string): Block[] =>
  note
    .trim()
    .split(/\s*\n\s*\n\s*/)
    .map((text) => ({ kind: 'text', text }));
