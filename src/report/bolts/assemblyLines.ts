import type { Corner } from '../../design/schema.ts';
import type { AssemblyStudy, UnreachableWay } from '../../studies/assembly/assembly.ts';
import type { Block } from '../../studies/assembly/blocked.ts';
import type { HoleDistance } from '../../studies/holeDistances.ts';
import { type Figures, signedAngle } from '../figures.ts';

/** The steps of assembly as they are taken, a line each with what is put on. */
export const stepLines = ({ steps }: Pick<AssemblyStudy, 'steps'>, corner: Corner): string[] => {
  const numbers = [...new Set(steps.map(({ step }) => step))].sort((a, b) => a - b);
  return numbers.map((number) => {
    const there = steps.filter(({ step }) => step === number).map(({ id }) => nameOf(corner, id));
    return `  ${number}: ${there.join(', ')}`;
  });
};

/**
 * What the steps have the wrong way round; every fastener that cannot be reached, with all that is in its way and what would
 * free it, or why nothing does; the proposed order; and the bolts of which it is unknown.
 */
export function reachLines(study: AssemblyStudy, corner: Corner, figures: Figures): string[] {
  const { unreachable, contradictions } = study;
  const unknown = unknownLines(study, corner);
  if (unreachable.length === 0 && contradictions.length === 0)
    return [
      `Every bolt can be put in, turned and taken out in this order, at ride height${unknown.length > 0 ? ', as far as is known' : ''}.`,
      ...unknown,
    ];
  const blocked = unreachable.flatMap((way) => [
    `  ${way.body.label}${way.directions > 1 ? `, from none of ${way.directions} directions; from that with the least in the way` : ''}:`,
    ...way.blocks.map((block) => `    ${block.label}: ${inTheWayInWords(block, figures)}`),
    `    ${cureInWords(way, corner)}`,
  ]);
  return [
    ...wrongStepLines(study, corner),
    ...(blocked.length === 0 ? [] : ['In this order, at ride height, these cannot be reached:', ...blocked]),
    ...orderLines(study, corner),
    ...unknown,
  ];
}

/** The bolts of which it is not known whether they can be reached; empty where there are none. */
export const unknownLines = ({ underBody }: AssemblyStudy, corner: Corner): string[] =>
  underBody.map(
    (id) =>
      `Unknown: whether the caliper leaves ${nameOf(corner, id)} room, since its body covers them as measured.`,
  );

/** What the steps have the wrong way round; empty where nothing is. */
export function wrongStepLines(study: AssemblyStudy, corner: Corner): string[] {
  const { contradictions, steps } = study;
  if (contradictions.length === 0) return [];
  const step = (id: string) =>
    `${nameOf(corner, id)} in step ${steps.find((thing) => thing.id === id)?.step}`;
  return [
    'These steps cannot be taken one after another:',
    ...contradictions.map(({ earlier, later, why }) => `  ${step(later)}, ${step(earlier)}: ${why}`),
  ];
}

/** What would free a fastener: parts that come later, or a handle from elsewhere; or the reasons for which nothing does. */
export function cureInWords({ body, blocks, proposed, directions }: UnreachableWay, corner: Corner): string {
  const bolts = nameOf(corner, body.boltsId);
  if (proposed.kind === 'never') {
    const own = proposed.ring.find(
      ({ earlier, why }) => earlier === body.boltsId && why.endsWith(body.label),
    );
    const reasons = proposed.ring.filter((one) => one !== own).map(({ why }) => why);
    if (reasons.length === 0) return `in no order: ${bolts} stand in each other's way`;
    return own === undefined
      ? `in no order, since ${inWords(reasons)}`
      : `in no order: ${nameOf(corner, own.later)} cannot be put on after ${bolts}, since ${inWords(reasons)}`;
  }
  const { handleDeg } = proposed;
  if (directions > 1 && handleDeg !== undefined)
    return `could be reached in another order, with the handle at ${signedAngle(handleDeg)}`;
  const later = [...new Set(blocks.map(({ partId }) => nameOf(corner, partId)))];
  return `could be reached, were ${inWords(later)} put on after ${bolts}`;
}

function orderLines(study: AssemblyStudy, corner: Corner): string[] {
  const { order, unreachable } = study;
  const never = unreachable.filter(({ proposed }) => proposed.kind === 'never');
  const changes = order.changes.map(
    ({ id, from, to }) => `  ${nameOf(corner, id)}: in step ${to}, not ${from}`,
  );
  const none = never.length > 0 ? ['No order of assembly helps all of them.'] : [];
  if (changes.length === 0) return none;
  return [
    ...none,
    `${never.length > 0 ? 'The others' : unreachable.length > 0 ? 'They' : 'They could be taken, and every bolt'} could be reached, were these put on later:`,
    ...changes,
    'Put together in these steps then:',
    ...stepLines(order, corner),
  ];
}

/** "a", "a and b", "a, b and c". */
const inWords = (names: readonly string[]): string =>
  names.length < 2 ? names.join() : `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`;

function inTheWayInWords({ clearanceMm, errorMm }: Block, { bound, unit }: Figures): string {
  if (Number.isNaN(clearanceMm))
    return 'it cannot be told whether it is in the way, since its surface is open';
  if (clearanceMm > 0)
    return `it cannot be told whether it is in the way: nearer than the error of ±${bound(errorMm)} ${unit}`;
  return 'in the way';
}

/** Holes nearer to an edge or to each other than somebody asks, and one line where none is; empty without holes. */
export function holeLines(holes: readonly HoleDistance[], figures: Figures): string[] {
  if (holes.length === 0) return [];
  const short = holes.flatMap(({ words, distanceMm, holeMm, holeKnown, wanted }) => {
    const asked = wanted.filter((one) => one.short);
    if (asked.length === 0) return [];
    const { least, given, unit } = figures;
    return [
      `  ${words}: ${least(distanceMm)} ${unit}, with holes of ${given(holeMm)} ${unit}${holeKnown ? '' : ', as assumed'}; asked for:`,
      ...asked.map(({ mm, origin }) => `    ${given(mm)} ${unit}: ${origin}`),
    ];
  });
  return [
    'Holes, a caution and no verdict on strength:',
    ...(short.length === 0 ? ['  all as far from edges and from each other as is asked for'] : short),
  ];
}

function nameOf({ parts }: Corner, id: string): string {
  return parts.find((entry) => entry.id === id)?.label ?? id;
}
