import type { AlignmentFigures } from '../../studies/remedy/alignmentFigures.ts';
import type { Refused, Remedy } from '../../studies/remedy/finder.ts';
import type { Hit, Remedies } from '../../studies/remedy/remedy.ts';
import type { OtherPair, Reason } from '../../studies/remedy/verify.ts';
import type { PairTrial } from '../../studies/vary/pairTrial.ts';
import { visible } from '../../units/plainText.ts';
import { stateInWords } from '../content.ts';
import { angle, counted, type Figures, signedAngle } from '../figures.ts';
import { bindingText, unknownInWords } from '../limitRows.ts';
import { poseInWords } from '../pose.ts';
import { notBuiltLines } from '../sensitivity/sensitivityText.ts';
import { indented, type TextLine, textLine } from '../textLine.ts';
import { trialName } from '../varied/obstacles.ts';
import { changesInWords } from './changeWords.ts';

/** Losses below this are not listed, mm: twice the tolerance of the proof. */
const SMALL_LOSS_MM = 0.2;
/** Number of losses in the text. */
const MOST_LOSSES = 3;

const names = (pairs: readonly PairTrial[]): string =>
  pairs.map((pair) => `${trialName(pair)} (${pair.state})`).join(', ');

/** What a change does to the pair in hand, in a sentence. */
function gainInWords({ after }: Remedy, figures: Figures): string {
  return Number.isFinite(after.leastMarginMm)
    ? `Clears: at least ${figures.least(after.leastMarginMm)} ${figures.unit} more than its target.`
    : 'Clears: far.';
}

/** What happens to all other pairs, joints and dampers, in sentences. */
function othersInWords({ failing, newlyFailing, newlyUnknown, binding }: Remedy): string[] {
  if (failing.length + newlyUnknown.length + binding.length === 0) return ['Everything else clears.'];
  const still = failing.filter((pair) => !newlyFailing.includes(pair));
  return [
    ...(newlyFailing.length > 0 ? [`Newly too close: ${names(newlyFailing)}.`] : []),
    ...(newlyUnknown.length > 0 ? [`Newly unknown: ${names(newlyUnknown)}.`] : []),
    ...(still.length > 0 ? [`Still too close: ${names(still)}.`] : []),
    ...(binding.length > 0 ? [`As before: ${binding.map(bindingText).join(', ')}.`] : []),
  ];
}

function lossesInWords(others: readonly OtherPair[], figures: Figures): string[] {
  const lost = others.filter(({ gainMm }) => gainMm !== undefined && gainMm < -SMALL_LOSS_MM);
  if (lost.length === 0) return [`No other pair loses more than ${figures.boundWithUnit(SMALL_LOSS_MM)}.`];
  const shown = lost
    .slice(0, MOST_LOSSES)
    .map(({ before, gainMm = 0 }) => `${trialName(before)} ${figures.boundWithUnit(-gainMm)}`);
  const more = lost.length > shown.length ? `, and ${lost.length - shown.length} more` : '';
  return [`Other pairs lose: ${shown.join(', ')}${more}.`];
}

/** A figure of the alignment as text. */
interface ShownFigure {
  name: string;
  of: keyof AlignmentFigures;
  text(value: number, figures: Figures): string;
}

const signedDegrees = (value: number) => signedAngle(value, 2);
const degrees = (value: number) => angle(Math.abs(value), 2);
const signedPlace = (mm: number, figures: Figures) => `${figures.signedPlace(mm)} ${figures.unit}`;
const place = (mm: number, figures: Figures) => figures.placeWithUnit(mm);

const SHOWN: readonly ShownFigure[] = [
  { name: 'static camber', of: 'camberDeg', text: signedDegrees },
  { name: 'static toe', of: 'toeDeg', text: signedDegrees },
  { name: 'caster', of: 'casterDeg', text: signedDegrees },
  { name: 'toe change over travel', of: 'toeChangeDeg', text: degrees },
  { name: 'lock with the front edge outboard', of: 'outboardLockDeg', text: degrees },
  { name: 'lock with the front edge inboard', of: 'inboardLockDeg', text: degrees },
  { name: 'scrub radius', of: 'scrubRadiusMm', text: signedPlace },
  { name: 'mechanical trail', of: 'mechanicalTrailMm', text: signedPlace },
  { name: 'half track', of: 'halfTrackMm', text: place },
  { name: 'travel', of: 'travelMm', text: place },
];

/** The figures of alignment, lock and travel that a change moves, each from its value in the file. */
function alignmentInWords(before: AlignmentFigures, after: AlignmentFigures, figures: Figures): string {
  const changed = SHOWN.flatMap(({ name, of, text }) => {
    const [was, is] = [before[of], after[of]].map((value) =>
      value === undefined ? 'unknown' : text(value, figures),
    );
    return was === is ? [] : [`${name} ${was} to ${is}`];
  });
  return changed.length === 0 ? 'Alignment, lock and travel stay.' : `It changes: ${changed.join(', ')}.`;
}

/** Why a change is refused, without a full stop. */
export function reasonText(reason: Reason): string {
  switch (reason.kind) {
    case 'notBuilt': {
      const [{ path, message }] = reason.problems;
      return `the corner cannot be built: ${path === '' ? '' : `${path} `}${message.replace(/\.$/, '')}`;
    }
    case 'limits':
      return reason.limits
        .map((limit) => (limit.state === 'binds' ? bindingText(limit) : unknownInWords(limit)))
        .join(', ');
    case 'locksOut':
      return 'the suspension locks out in part of its travel and steering';
    case 'bolts':
      return `${[...new Set(reason.ways.map(({ body }) => body.label))].join(', ')} cannot be reached`;
  }
}

/** What was tried, and whether a single value or two clear the pair, in sentences. */
const verdictOf = ({ hasSlopes, remedies }: Hit): string[] => [
  ...(hasSlopes
    ? []
    : [
        'The depth of the overlap is not known. Each value was tried at the end of its range, and never two.',
      ]),
  ...(remedies.length === 0
    ? [`No change of one ${hasSlopes ? 'or two values' : 'value'} within the ranges can be proposed.`]
    : remedies.every(({ changes }) => changes.length > 1)
      ? ['No single value within its range can be proposed. Two together can:']
      : []),
];

/** A pair that touches or is tight, with its proposals, in words. */
export interface HitInWords {
  /** The pair, its state and its worst pose. */
  title: string;
  verdict: readonly string[];
  /** In the order of the hit's remedies. */
  proposals: readonly { title: string; sentences: readonly string[] }[];
  refused: readonly string[];
}

export function hitInWords({ setup, alignment }: Remedies, hit: Hit, figures: Figures): HitInWords {
  const { design } = setup;
  const { before, remedies, refused } = hit;
  const { worst } = before;
  const where =
    worst === undefined
      ? ''
      : `, ${figures.withErrorAndUnit(worst.clearanceMm, worst.errorMm)} at ${before.moves ? poseInWords(design.corner, worst, figures) : 'every pose'}`;
  return {
    title: `${trialName(before)}: ${stateInWords(before.state)}${where}`,
    verdict: verdictOf(hit),
    proposals: remedies.map((remedy) => ({
      title: changesInWords(remedy.changes),
      sentences: [
        [gainInWords(remedy, figures), ...othersInWords(remedy)].join(' '),
        [
          ...lossesInWords(remedy.others, figures),
          alignmentInWords(alignment, remedy.alignment, figures),
        ].join(' '),
      ],
    })),
    refused: refused.map(
      (one: Refused) =>
        `Not proposed: ${changesInWords(one.changes)}: ${one.reasons.map(reasonText).join('; ')}.`,
    ),
  };
}

function hitLines(study: Remedies, hit: Hit, figures: Figures): TextLine[] {
  const { title, verdict, proposals, refused } = hitInWords(study, hit, figures);
  return [
    textLine(title),
    ...verdict.map((text) => textLine(text, 1)),
    ...proposals.flatMap((proposal, k) => [
      textLine(`${k + 1}. ${proposal.title}`, 1),
      ...proposal.sentences.map((text) => textLine(text, 2)),
    ]),
    ...refused.map((text) => textLine(text, 1)),
  ];
}

/** Which values may change, and what the proposals rest on, in sentences. */
export const remedyScope = ({ freeCount, fixedCount }: Remedies): string[] => [
  `${counted(freeCount, 'value', 'values')} may change and ${fixedCount} are fixed: "fixed" in the file sets which.`,
  'Each proposal is swept and proved over all travel and steering; one step less does not clear. A value that gains less than the error of its slope is not tried. Steps and ranges are common practice, no source.',
];

/** The remedies of a corner's hits as lines of text. */
export function remedyLines(study: Remedies, figures: Figures): string[] {
  const { hits, noHit, unknown } = study;
  const open =
    unknown.length === 0 ? [] : [visible(`Unknown, see a sweep: ${unknown.map(trialName).join(', ')}.`)];
  if (hits.length === 0)
    return [
      noHit === undefined
        ? 'No pair is known to touch or to be tight.'
        : visible(`${trialName(noHit)}: ${stateInWords(noHit.state)}.`),
      ...open,
    ];
  return [
    ...hits.flatMap((hit) => [...indented(hitLines(study, hit, figures)).map(visible), '']),
    ...open,
    ...notBuiltLines(study.notBuilt),
    ...remedyScope(study),
  ];
}
