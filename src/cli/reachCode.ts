import type { AssemblyStudy } from '../studies/assembly/assembly.ts';
import { EXIT, type ExitCode } from './exit.ts';

/** What the bolts of a corner end a command with: short where one cannot be reached, unknown where that cannot be told. */
export function reachCode({ unreachable, contradictions, underBody }: AssemblyStudy): ExitCode {
  const blocks = unreachable.flatMap((way) => way.blocks);
  if (contradictions.length > 0 || blocks.some(({ clearanceMm }) => clearanceMm <= 0)) return EXIT.short;
  return blocks.length > 0 || underBody.length > 0 ? EXIT.unknown : EXIT.clear;
}
