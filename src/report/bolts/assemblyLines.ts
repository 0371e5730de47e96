import type { Corner } from '../../design/schema.ts';
import type { AssemblyStudy, UnreachableWay } from '../../studies/assembly/assembly.ts';
import type { Block } from '../../studies/assembly/blocked.ts';
import type { HoleDistance } from '../../studies/holeDistances.ts';
import { type Figures, signedAngle } from '../figures.ts';
import { type TextLine, textLine } from '../textLine.ts';

/** A line for each step of assembly, with the parts fitted in it. */
export const stepLines = ({ steps }: Pick<AssemblyStudy, 'steps'>, corner: Corner): TextLine[] => {
  const numbers = [...new Set(steps.map(({ step }) => step))].sort((a, b) => a - b);
  return numbers.map((number) => {
    const there = steps.filter(({ step }) => step === number).map(({ id }) => nameOf(corner, id));
    return textLine(`${number}: ${there.join(', ')}`, 1);
  });
};

/**
 * Steps in the wrong order; each fastener that cannot be reached, with what blocks it and how to free it (or why no order
 * does); the proposed order; and the bolts for which this is unknown.
 */
export function reachLines(study: AssemblyStudy, corner: Corner, figures: Figures): TextLine[] {
  const { unreachable, contradictions } = study;
  const unknown = unknownLines(study, corner);
  if (unreachable.length === 0 && contradictions.length === 0)
    return [
      textLine(
        `Every bolt can be put in, turned and taken out in this order, at ride height${unknown.length > 0 ? ', except those listed as unknown' : ''}.`,
      ),
      ...unknown,
    ];
  const blocked = unreachable.flatMap((way) => [
    textLine(
      `${way.body.label}${way.directions > 1 ? `, from none of ${way.directions} directions; listed for the direction with the fewest parts in the way` : ''}:`,
      1,
    ),
    ...way.blocks.map((block) => textLine(`${block.label}: ${inTheWayInWords(block, figures)}`, 2)),
    textLine(cureInWords(way, corner), 2),
  ]);
  return [
    ...wrongStepLines(study, corner),
    ...(blocked.length === 0
      ? []
      : [textLine('In this order, at ride height, these cannot be reached:'), ...blocked]),
    ...orderLines(study, corner),
    ...unknown,
  ];
}

/** The bolts for which it is unknown whether they can be reached; empty if there are none. */
export const unknownLines = ({ underBody }: AssemblyStudy, corner: Corner): TextLine[] =>
  underBody.map((id) =>
    textLine(
      `Unknown: whether the caliper leaves room for ${nameOf(corner, id)}. Its body, as entered, covers them.`,
    ),
  );

/** Steps that are in the wrong order, with the reason; empty if there are none. */
export function wrongStepLines(study: AssemblyStudy, corner: Corner): TextLine[] {
  const { contradictions, steps } = study;
  if (contradictions.length === 0) return [];
  const step = (id: string) =>
    `${nameOf(corner, id)} in step ${steps.find((thing) => thing.id === id)?.step}`;
  return [
    textLine('These steps are in the wrong order:'),
    ...contradictions.map(({ earlier, later, why }) =>
      textLine(`${step(later)}, ${step(earlier)}: ${why}`, 1),
    ),
  ];
}

/** How to free a fastener: fit parts later, or hold the wrench elsewhere; or the reasons why no order frees it. */
export function cureInWords({ body, blocks, proposed, directions }: UnreachableWay, corner: Corner): string {
  const bolts = nameOf(corner, body.boltsId);
  if (proposed.kind === 'never') {
    const own = proposed.cycle.find(
      ({ earlier, why }) => earlier === body.boltsId && why.endsWith(body.label),
    );
    const reasons = proposed.cycle.filter((one) => one !== own).map(({ why }) => why);
    if (reasons.length === 0) return `in no order: ${bolts} block each other`;
    return own === undefined
      ? `in no order: ${inWords(reasons)}`
      : `in no order: ${nameOf(corner, own.later)} cannot be fitted after ${bolts}, because ${inWords(reasons)}`;
  }
  const { handleDeg } = proposed;
  if (directions > 1 && handleDeg !== undefined)
    return `to reach it: change the order of assembly and hold the handle at ${signedAngle(handleDeg)}`;
  const later = [...new Set(blocks.map(({ partId }) => nameOf(corner, partId)))];
  return `to reach it: fit ${inWords(later)} after ${bolts}`;
}

function orderLines(study: AssemblyStudy, corner: Corner): TextLine[] {
  const { order, unreachable } = study;
  const never = unreachable.filter(({ proposed }) => proposed.kind === 'never');
  const changes = order.changes.map(({ id, from, to }) =>
    textLine(`${nameOf(corner, id)}: step ${to} instead of ${from}`, 1),
  );
  const none = never.length > 0 ? [textLine('No order of assembly makes all of them reachable.')] : [];
  if (changes.length === 0) return none;
  return [
    ...none,
    textLine(
      `To ${unreachable.length > 0 ? `reach ${never.length > 0 ? 'the others' : 'them'}` : 'correct the order and reach every bolt'}, fit these later:`,
    ),
    ...changes,
    textLine('Proposed steps of assembly:'),
    ...stepLines(order, corner),
  ];
}

/** "a", "a and b", "a, b and c". */
const inWords = (names: readonly string[]): string =>
  names.length < 2 ? names.join() : `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`;

function inTheWayInWords({ clearanceMm, errorMm }: Block, { bound, unit }: Figures): string {
  if (Number.isNaN(clearanceMm)) return 'unknown whether it is in the way: its surface is open';
  if (clearanceMm > 0)
    return `unknown whether it is in the way: closer than the error of ±${bound(errorMm)} ${unit}`;
  return 'in the way';
}

/** Holes closer to an edge or to each other than a published minimum, or one line if there are none; empty without holes. */
export function holeLines(holes: readonly HoleDistance[], figures: Figures): TextLine[] {
  if (holes.length === 0) return [];
  const short = holes.flatMap(({ words, distanceMm, holeMm, holeKnown, wanted: minimums }) => {
    const missed = minimums.filter((one) => one.short);
    if (missed.length === 0) return [];
    const { least, given, unit } = figures;
    return [
      textLine(
        `${words}: ${least(distanceMm)} ${unit}, with holes of ${given(holeMm)} ${unit}${holeKnown ? '' : ' (assumed)'}; minimum:`,
        1,
      ),
      ...missed.map(({ mm, origin }) => textLine(`${given(mm)} ${unit}: ${origin}`, 2)),
    ];
  });
  return [
    textLine('Holes (a caution, not a verdict on strength):'),
    ...(short.length === 0
      ? [textLine('no hole is closer to an edge or to another hole than the published minimums', 1)]
      : short),
  ];
}

function nameOf({ parts }: Corner, id: string): string {
  return parts.find((entry) => entry.id === id)?.label ?? id;
}
