import { resolve } from 'node:path';

const REGISTRY = resolve(import.meta.dirname, '../../src/layouts/registry.ts');

/** The file to load in place of a source: the registry of tests for that of `src/layouts`; undefined for the others. */
export function testRegistryFor(path: string): string | undefined {
  return path === REGISTRY ? resolve(import.meta.dirname, 'registry.ts') : undefined;
}
