import type { Corner } from '../../design/schema.ts';
import type { AssemblyStudy, UnreachableWay } from '../../studies/assembly/assembly.ts';
import type { Block } from '../../studies/assembly/blocked.ts';
import { cureInWords, unknownLines, wrongStepLines } from '../bolts/assemblyLines.ts';
import { indented } from '../textLine.ts';

/** The bolts of a candidate in one cell: "all reached", "2 not reached", "1 unknown". */
export function boltsCell({ unreachable, underBody }: AssemblyStudy): string {
  const count = (ways: readonly UnreachableWay[]) =>
    new Set(ways.map(({ body }) => `${body.boltsId} ${body.index}`)).size;
  const blocked = count(unreachable.filter(({ blocks }) => blocks.some(isInTheWay)));
  if (blocked > 0) return `${blocked} not reached`;
  const unknown = count(unreachable);
  if (unknown > 0) return `${unknown} unknown`;
  return underBody.length > 0 ? 'reached or unknown' : 'all reached';
}

const isInTheWay = ({ clearanceMm }: Block): boolean => clearanceMm <= 0;

/** "Upper arm, Upper joint in the way", then the parts for which this is unknown. */
function blocksInWords(blocks: readonly Block[]): string {
  const names = (some: readonly Block[]) => [...new Set(some.map(({ label }) => label))].join(', ');
  const blocking = names(blocks.filter(isInTheWay));
  const unknown = names(blocks.filter((block) => !isInTheWay(block)));
  return [
    ...(blocking === '' ? [] : [`${blocking} in the way`]),
    ...(unknown === '' ? [] : [`unknown whether ${unknown} is in the way`]),
  ].join('; ');
}

/** One line for the bolts of a candidate, and one for each set with bolts that cannot be reached. */
export function boltsInWords(study: AssemblyStudy, corner: Corner): string[] {
  const sets = [...new Set(study.unreachable.map(({ body }) => body.boltsId))];
  return [
    `bolts: ${boltsCell(study)}`,
    ...sets.map((id) => {
      const ways = study.unreachable.filter(({ body }) => body.boltsId === id);
      const numbers = [...new Set(ways.map(({ body }) => body.index + 1))];
      const never = ways.some(({ proposed }) => proposed.kind === 'never');
      const name = corner.parts.find((part) => part.id === id)?.label ?? id;
      return `${name} ${numbers.join(', ')}: ${blocksInWords(ways.flatMap(({ blocks }) => blocks))}${never ? ', in any order' : ''}`;
    }),
  ];
}

/**
 * For each candidate, by its number in the list: the bolts that cannot be reached and how to free them. Lines that all
 * candidates share come once, first.
 */
export function candidateReachLines(reach: readonly AssemblyStudy[], corner: Corner): string[] {
  const [first, ...others] = reach;
  if (first === undefined) return [];
  const linesOfEach = reach.map((study) =>
    study.unreachable.map(
      (way) => `    ${way.body.label}: ${blocksInWords(way.blocks)}; ${cureInWords(way, corner)}`,
    ),
  );
  const common =
    others.length === 0
      ? []
      : linesOfEach[0].filter((line) => linesOfEach.every((lines) => lines.includes(line)));
  const own = linesOfEach.flatMap((lines, k) => {
    const rest = lines.filter((line) => !common.includes(line));
    return rest.length === 0 ? [] : [`  ${k + 1}:`, ...rest];
  });
  const blocked = [...(common.length === 0 ? [] : ['  at every candidate:', ...common]), ...own];
  return [
    ...indented([...wrongStepLines(first, corner), ...unknownLines(first, corner)]),
    ...(blocked.length === 0
      ? []
      : ['Bolts that cannot be reached in the steps of assembly, at ride height:', ...blocked]),
  ];
}
