import type { Corner } from '../../design/schema.ts';
import type { AssemblyStudy, UnreachableWay } from '../../studies/assembly/assembly.ts';
import type { Block } from '../../studies/assembly/blocked.ts';
import { cureInWords, unknownLines, wrongStepLines } from '../bolts/assemblyLines.ts';

/** "all reached", "2 not reached", "1 unknown": the bolts of a candidate in one cell. */
export function boltsCell({ unreachable, underBody }: AssemblyStudy): string {
  const count = (ways: readonly UnreachableWay[]) =>
    new Set(ways.map(({ body }) => `${body.boltsId} ${body.index}`)).size;
  const blocked = count(unreachable.filter(({ blocks }) => blocks.some(isInTheWay)));
  if (blocked > 0) return `${blocked} not reached`;
  const unknown = count(unreachable);
  if (unknown > 0) return `${unknown} unknown`;
  return underBody.length > 0 ? 'reached, as far as is known' : 'all reached';
}

const isInTheWay = ({ clearanceMm }: Block): boolean => clearanceMm <= 0;

/** "Upper arm, Upper joint in the way", and what may be. */
function blocksInWords(blocks: readonly Block[]): string {
  const names = (some: readonly Block[]) => [...new Set(some.map(({ label }) => label))].join(', ');
  const sure = names(blocks.filter(isInTheWay));
  const unsure = names(blocks.filter((block) => !isInTheWay(block)));
  return [
    ...(sure === '' ? [] : [`${sure} in the way`]),
    ...(unsure === '' ? [] : [`it cannot be told whether ${unsure} is in the way`]),
  ].join('; ');
}

/** The bolts of a candidate in a line, and one more for each set of which some cannot be reached. */
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
 * Of candidates in their order, whose number is that in the list, which bolts cannot be reached and what would free them; what
 * all have in common once.
 */
export function candidateReachLines(reach: readonly AssemblyStudy[], corner: Corner): string[] {
  const [first, ...others] = reach;
  if (first === undefined) return [];
  const told = reach.map((study) =>
    study.unreachable.map((way) => {
      return `    ${way.body.label}: ${blocksInWords(way.blocks)}; ${cureInWords(way, corner)}`;
    }),
  );
  const common =
    others.length === 0 ? [] : told[0].filter((line) => told.every((lines) => lines.includes(line)));
  const own = told.flatMap((lines, k) => {
    const rest = lines.filter((line) => !common.includes(line));
    return rest.length === 0 ? [] : [`  ${k + 1}:`, ...rest];
  });
  const blocked = [...(common.length === 0 ? [] : ['  at every candidate:', ...common]), ...own];
  return [
    ...wrongStepLines(first, corner),
    ...unknownLines(first, corner),
    ...(blocked.length === 0
      ? []
      : ['Bolts that cannot be reached, in the steps of assembly as they are, at ride height:', ...blocked]),
  ];
}
