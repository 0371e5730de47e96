import type { BuildResult, Plugin } from 'esbuild';

/** URL of the built program. Builds it first if a source has changed since the last build. */
export function builtProgram(): Promise<string>;

/** Bundles program, threads and commands in memory. `plugins`: of esbuild, for tests that replace a source. */
export function bundle(plugins?: Plugin[]): Promise<BuildResult<{ write: false; metafile: true }>>;
