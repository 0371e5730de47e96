/**
 * What share of a command's processor time is serial, and how much faster 4 and 16 threads can make it at most (Amdahl):
 * `npx tsx tests/bench/serialShare.ts [TRAVEL-STEPS STEER-STEPS]`, 201 by 101 unless given. Serial is what the thread of
 * the command does by itself, and the pair whose proof takes longest where that is more than a thread's part of the proof.
 */

import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { sweepInProcess } from '../../src/executors/inProcess.ts';
import { inSharedMemory } from '../../src/executors/sharedMemory.ts';
import { findingsOf } from '../../src/findings/findingsOf.ts';
import { limitsOf } from '../../src/proof/limits.ts';
import { type ProvedPair, Prover, stepsOfPair } from '../../src/proof/prove.ts';
import { findingsJson } from '../../src/report/findingsJson.ts';
import { resultsJson } from '../../src/report/resultsJson.ts';
import { pendingResult, placeRow } from '../../src/sweep/assemble.ts';
import { DEFAULT_SETTINGS } from '../../src/sweep/result.ts';
import { RowSweeper } from '../../src/sweep/row.ts';
import { buildCorner, withBodies } from '../../src/sweep/setUp.ts';
import { readDesign } from '../design/readDesign.ts';

const DEMO = resolve(import.meta.dirname, '../../demo-data/gravelbeck.corner.json');
const THREADS = [4, 16];

const busyMs = (): number => process.cpuUsage().user / 1000;

/** Runs a part and prints its processor time, ms. */
async function timed<T>(what: string, work: () => T | Promise<T>): Promise<[number, T]> {
  const start = busyMs();
  const value = await work();
  const ms = busyMs() - start;
  console.log(`${what.padEnd(60)} ${ms.toFixed(0).padStart(8)} ms`);
  return [ms, value];
}

const [travelSteps = 201, steerSteps = 101] = process.argv.slice(2).map(Number);
const settings = { ...DEFAULT_SETTINGS, travelSteps, steerSteps };
const design = readDesign(readFileSync(DEMO, 'utf8'));

console.log(`river racer, ${travelSteps} by ${steerSteps} steps, processor time\n`);
const [solidsMs, built] = await timed('solids', () => buildCorner(design, settings));
const [bodiesMs, setup] = await timed('search trees, on threads', () => withBodies(built));
const [sharingMs] = await timed('handing the corner to threads', () => inSharedMemory(setup));
const rows = new RowSweeper(setup).sweepBand([0], setup.steer);
const [placingMs] = await timed('putting rows together', () => {
  const result = pendingResult(setup);
  setup.travelMm.forEach((_, travelIndex) => {
    placeRow(result, travelIndex, rows[0]);
  });
});
const [limitsMs, limits] = await timed('limits, on a thread', () =>
  limitsOf(design.corner, setup.mechanism, setup.travelMm, setup.steer),
);
const [sweepMs, result] = await timed('sweep, on threads', () => sweepInProcess(setup));
let longestMs = 0;
const [proofMs, proof] = await timed('proof, on threads', () => {
  const prover = new Prover(setup, result);
  const pairs: ProvedPair[] = setup.pairs.map((_, pair) => {
    const start = busyMs();
    const proved = prover.prove(pair, stepsOfPair(result, pair));
    longestMs = Math.max(longestMs, busyMs() - start);
    return proved;
  });
  return { pairs, lockedOut: prover.lockedOut };
});
console.log(`${'of these the longest pair'.padEnd(60)} ${longestMs.toFixed(0).padStart(8)} ms`);
const [findingMs, findings] = await timed('findings', () => findingsOf(result, limits, proof));
const checked = { design, solids: setup.solids, result, findings, contacts: new Map() };
const [textMs] = await timed('findings.json', () => findingsJson(checked, ''));
const [writingMs] = await timed('results.json, with --out', () => resultsJson(checked, ''));

const serialMs = solidsMs + sharingMs + placingMs + findingMs + textMs;
const parallelMs = bodiesMs + limitsMs + sweepMs + proofMs;
for (const [what, ownMs] of [
  ['without --out', serialMs],
  ['with --out', serialMs + writingMs],
] as const) {
  const wholeMs = ownMs + parallelMs;
  const faster = THREADS.map((threads) => {
    const onThreadsMs = (bodiesMs + limitsMs + sweepMs) / threads + Math.max(longestMs, proofMs / threads);
    return `${(wholeMs / (ownMs + onThreadsMs)).toFixed(1)} times faster on ${threads} threads`;
  });
  console.log(`serial ${what}: ${((100 * ownMs) / wholeMs).toFixed(1)} %; at most ${faster.join(', ')}`);
}
