import type { Corner } from '../../design/schema.ts';
import type { AssemblyStudy } from '../../studies/assembly/assembly.ts';
import { cureInWords, unknownLines, wrongStepLines } from '../bolts/assemblyLines.ts';

/** "all reached", "2 not reached": the bolts of a candidate in one cell. */
export function boltsCell({ unreachable, underBody }: AssemblyStudy): string {
  const bolts = new Set(unreachable.map(({ body }) => `${body.boltsId} ${body.index}`));
  if (bolts.size > 0) return `${bolts.size} not reached`;
  return underBody.length > 0 ? 'reached, as far as is known' : 'all reached';
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
      const parts = [...new Set(way.blocks.map(({ label }) => label))].join(', ');
      return `    ${way.body.label}: ${parts} in the way; ${cureInWords(way, corner)}`;
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
