#!/usr/bin/env node
// The program is TypeScript, so the loader is registered before any of it is imported.
import { register } from 'tsx/esm/api';

register();
const { run } = await import('./main.ts');
process.exitCode = await run(process.argv.slice(2));
