#!/usr/bin/env node
import { builtProgram } from './build.js';

const { run } = await import(await builtProgram());
process.exitCode = await run(process.argv.slice(2));
