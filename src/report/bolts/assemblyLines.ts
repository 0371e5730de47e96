import type { Corner } from '../../design/schema.ts';
import type { AssemblyStudy } from '../../studies/assembly/assembly.ts';
import type { Block } from '../../studies/assembly/blocked.ts';
import type { HoleDistance } from '../../studies/holeDistances.ts';
import type { Figures } from '../figures.ts';

/** The steps of assembly as they are taken, a line each with what is put on. */
export function stepLines({ steps }: AssemblyStudy, corner: Corner): string[] {
  const numbers = [...new Set(steps.map(({ step }) => step))].sort((a, b) => a - b);
  return numbers.map((number) => {
    const there = steps.filter(({ step }) => step === number).map(({ id }) => nameOf(corner, id));
    return `  ${number}: ${there.join(', ')}`;
  });
}

/** Every fastener that cannot be reached with all that is in its way, and the order that would do, or why none does. */
export function reachLines(
  { unreachable, order }: AssemblyStudy,
  corner: Corner,
  figures: Figures,
): string[] {
  if (unreachable.length === 0)
    return ['Every bolt can be put in, turned and taken out in this order, at ride height.'];
  const blocked = unreachable.flatMap(({ body, blocks, directions }) => [
    `  ${body.label}${directions > 1 ? `, from none of ${directions} directions; from that with the least in the way` : ''}:`,
    ...blocks.map((block) => `    ${block.label}: ${inTheWayInWords(block, figures)}`),
  ]);
  return [
    'In this order, at ride height, these cannot be reached:',
    ...blocked,
    ...orderLines(order, corner),
  ];
}

function orderLines(order: AssemblyStudy['order'], corner: Corner): string[] {
  if (order.kind === 'none')
    return [
      'No order of assembly helps: each of these has to come before the next, and the last before the first.',
      ...order.cycle.map(
        ({ earlier, later, why }) => `  ${nameOf(corner, earlier)} before ${nameOf(corner, later)}: ${why}`,
      ),
    ];
  return [
    'They could be, were these put on later:',
    ...order.changes.map(({ id, from, to }) => `  ${nameOf(corner, id)}: in step ${to}, not ${from}`),
  ];
}

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
