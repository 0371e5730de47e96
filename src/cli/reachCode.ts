import type { AssemblyStudy } from '../studies/assembly/assembly.ts';
import { EXIT, type ExitCode } from './exit.ts';

/** The exit code of an assembly study: short if a bolt cannot be reached, unknown if that is unknown. */
export function reachCode({ unreachable, contradictions, underBody }: AssemblyStudy): ExitCode {
  const blocks = unreachable.flatMap((way) => way.blocks);
  if (contradictions.length > 0 || blocks.some(({ clearanceMm }) => clearanceMm <= 0)) return EXIT.short;
  return blocks.length > 0 || underBody.length > 0 ? EXIT.unknown : EXIT.clear;
}
