/**
 * Times of the engine on the river racer, all in one run, seeded: `npm run bench`. Times on shared machines vary
 * by half and more, so read the ratios. Results are kept in `results/`, one file a kind of machine.
 */

import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { availableParallelism, cpus } from 'node:os';
import { resolve } from 'node:path';
import { BufferAttribute, BufferGeometry, Matrix4 } from 'three';
import { MeshBVH } from 'three-mesh-bvh';
import type { Body } from '../../src/clearance/body.ts';
import { BOX } from '../../src/clearance/orientedBoxes.ts';
import { PairQuery } from '../../src/clearance/query.ts';
import { sweepInProcess } from '../../src/executors/inProcess.ts';
import { startThreadPool } from '../../src/executors/nodeThreads.ts';
import { compose, invert, type Rigid, toMatrix4 } from '../../src/math/rigid.ts';
import { solvePose } from '../../src/mechanism/mechanism.ts';
import type { Mesh } from '../../src/solids/solid.ts';
import { DEFAULT_SETTINGS } from '../../src/sweep/result.ts';
import { RowSweeper } from '../../src/sweep/row.ts';
import { type Setup, setUp } from '../../src/sweep/setUp.ts';
import { readDesign } from '../design/readDesign.ts';
import { mulberry32 } from '../oracles/random.ts';

const SEED = 20261125;
const DEMO = resolve(import.meta.dirname, '../../demo-data/gravelbeck.corner.json');
const COMMAND = resolve(import.meta.dirname, '../../src/cli/daylight.js');
const RESULTS = resolve(import.meta.dirname, 'results');
/** The library's query takes a quarter of a second, so few of them must do. */
const LIBRARY_QUERIES = 40;
const OWN_QUERIES = 4000;
const SCRUBS = 300;

interface Line {
  what: string;
  value: number;
  unit: string;
}
const lines: Line[] = [];
const record = (what: string, value: number, unit: string): void => {
  lines.push({ what, value, unit });
  console.log(`${what.padEnd(72)} ${value.toPrecision(4).padStart(9)} ${unit}`);
};

async function timed<T>(work: () => Promise<T> | T): Promise<[number, T]> {
  const start = performance.now();
  const value = await work();
  return [performance.now() - start, value];
}

/** Processor time of some work, ms: what else the machine does sways it less than the time that passes. */
async function busyMs(work: () => Promise<unknown>): Promise<number> {
  const start = process.cpuUsage();
  await work();
  return process.cpuUsage(start).user / 1000;
}

/** Processor time of a sweep on a thread that has done none before, as that of a command, ms. */
async function busyOnThreadMs(setup: Setup): Promise<number> {
  const pool = startThreadPool(1);
  pool.setCorner(setup);
  // Loading the code is over by then, and counts for no sweep.
  await new Promise((resolve) => setTimeout(resolve, 3000));
  const ms = await busyMs(() => pool.sweep());
  pool.end();
  return ms;
}

function geometryOf(mesh: Mesh): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(Float32Array.from(mesh.positions), 3));
  geometry.setIndex(new BufferAttribute(mesh.triangles.slice(), 1));
  return geometry;
}

interface Question {
  pair: number;
  aFromB: Rigid;
}

/** Moving pairs at neighbouring poses along a wandering path through travel and steer. */
function questions(setup: Setup, count: number): Question[] {
  const random = mulberry32(SEED);
  const { bump, droop } = setup.design.corner.suspension.travel;
  const moving = setup.pairs.flatMap((pair, p) => (pair.moves && pair.zones.length === 0 ? [p] : []));
  const list: Question[] = [];
  for (let travelMm = 0, steer = 0; list.length < count; ) {
    travelMm = Math.min(bump, Math.max(-droop, travelMm + (random() - 0.5) * 15));
    steer = Math.min(1, Math.max(-1, steer + (random() - 0.5) * 0.2));
    const pose = solvePose(setup.mechanism, travelMm, steer);
    if (pose.kind !== 'solved') continue;
    for (const pair of moving) {
      const { a, b } = setup.pairs[pair];
      const carrierOf = (solid: number) => pose.carriers[setup.solids[solid].carrier];
      list.push({ pair, aFromB: compose(invert(carrierOf(a)), carrierOf(b)) });
    }
  }
  return list.slice(0, count);
}

/** The body with the boxes of its surface along the axes of its mesh: what boxes turned to fit are held against. */
function withUprightBoxes(body: Body): Body {
  const { boxes } = body.surface;
  const oriented = body.surface.oriented.slice();
  for (let node = 0; node < boxes.length / 6; node++) {
    const [x, y, z, ...halves] = boxes.subarray(6 * node, 6 * node + 6);
    oriented.set([x, y, z, 1, 0, 0, 0, 1, 0, 0, 0, 1, ...halves, Math.hypot(...halves)], BOX * node);
  }
  const surface = { ...body.surface, oriented };
  return { ...body, surface, whole: body.whole === body.surface ? surface : body.whole };
}

interface OnThreads {
  sweepMs: number;
  proofMs: number;
}

/** Sweep and proof on threads, as the command does them: threads load while the corner is built. */
async function onThreads(threads: number): Promise<OnThreads> {
  const pool = startThreadPool(threads);
  const setup = await setUp(demoDesign(), DEFAULT_SETTINGS);
  const [sweepMs, swept] = await timed(() => {
    pool.setCorner(setup);
    return pool.sweep();
  });
  const [proofMs] = await timed(() => pool.prove(swept));
  pool.end();
  return { sweepMs, proofMs };
}

const THREADS = '--threads';

/** The same in a process of its own, which has nothing else to hold. */
function ofOwnProcess(threads: number): OnThreads {
  const args = ['--import', 'tsx', import.meta.filename, THREADS, String(threads)];
  const { stdout, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8' });
  if (stdout === '') throw new Error(stderr);
  return JSON.parse(stdout);
}

function demoDesign(): Setup['design'] {
  return readDesign(readFileSync(DEMO, 'utf8'));
}

/** Peak memory of the whole command, with its threads, in MB. */
function memoryOfCommand(): number {
  const atExit = 'process.on("exit",()=>console.error("peak",process.resourceUsage().maxRSS))';
  const { stderr } = spawnSync(
    process.execPath,
    ['--import', `data:text/javascript,${atExit}`, COMMAND, 'sweep', DEMO],
    { encoding: 'utf8' },
  );
  return Math.max(...[...stderr.matchAll(/peak (\d+)/g)].map(([, kilobytes]) => Number(kilobytes))) / 1024;
}

async function benchQueries(setup: Setup): Promise<void> {
  const list = questions(setup, OWN_QUERIES);
  const queries = setup.bodies.map(({ a, b }) => new PairQuery(a, b));
  /** Milliseconds a query of the second of two turns, the first having warmed the code. */
  const run = async (limitMm: number, asked = queries, remembers = true): Promise<number> => {
    let ms = 0;
    for (let turn = 0; turn < 2; turn++) {
      [ms] = await timed(() => {
        for (const { pair, aFromB } of list) {
          if (!remembers) asked[pair].reset();
          asked[pair].run(aFromB, limitMm);
        }
      });
    }
    return ms / list.length;
  };
  const own = await run(Number.POSITIVE_INFINITY);
  const limited = await run(50);
  const forgetful = await run(Number.POSITIVE_INFINITY, queries, false);
  const forgetfulLimited = await run(50, queries, false);
  const upright = setup.bodies.map(({ a, b }) => new PairQuery(withUprightBoxes(a), withUprightBoxes(b)));
  const uprightForgetful = await run(Number.POSITIVE_INFINITY, upright, false);
  const uprightOwn = await run(Number.POSITIVE_INFINITY, upright);
  const trees = setup.solids.map(({ mesh }) => new MeshBVH(geometryOf(mesh)));
  const geometries = setup.solids.map(({ mesh }) => {
    const geometry = geometryOf(mesh);
    geometry.boundsTree = new MeshBVH(geometry);
    return geometry;
  });
  const stride = Math.floor(list.length / LIBRARY_QUERIES);
  const few = list.filter((_, i) => i % stride === 0);
  let worstMm = 0;
  const [library, distances] = await timed(() =>
    few.map(({ pair, aFromB }) => {
      const matrix = new Matrix4().set(...(toMatrix4(aFromB) as Parameters<Matrix4['set']>));
      const { a, b } = setup.pairs[pair];
      return trees[a].closestPointToGeometry(geometries[b], matrix)?.distance ?? Number.NaN;
    }),
  );
  few.forEach(({ pair, aFromB }, i) => {
    queries[pair].run(aFromB, Number.POSITIVE_INFINITY);
    if (queries[pair].kind === 'separated')
      worstMm = Math.max(worstMm, Math.abs(queries[pair].distanceMm - distances[i]));
  });
  record('query, no limit', own, 'ms');
  record('  where nothing is remembered of the pose before', forgetful / own, 'x');
  record('  with boxes along the axes of each mesh', uprightOwn / own, 'x');
  record('  the same where nothing is remembered', uprightForgetful / forgetful, 'x');
  record('query, 50 mm limit', limited, 'ms');
  record('  where nothing is remembered of the pose before', forgetfulLimited / limited, 'x');
  record('  without the limit', own / limited, 'x');
  record('closestPointToGeometry of three-mesh-bvh, same pairs and poses', library / few.length, 'ms');
  record('  ratio to a query without limit', library / few.length / own, 'x');
  record('  largest difference of the answers', worstMm, 'mm');
}

async function benchScrub(setup: Setup): Promise<void> {
  const random = mulberry32(SEED);
  const sweeper = new RowSweeper(setup);
  const { bump, droop } = setup.design.corner.suspension.travel;
  const times: number[] = [];
  let [travelMm, steer] = [0, 0];
  for (let k = 0; k < SCRUBS; k++) {
    travelMm = Math.min(bump, Math.max(-droop, travelMm + (random() - 0.5) * 8));
    steer = Math.min(1, Math.max(-1, steer + (random() - 0.5) * 0.1));
    const [ms] = await timed(() => sweeper.sweep(travelMm, Float64Array.of(steer)));
    times.push(ms);
  }
  times.sort((a, b) => a - b);
  record('all pairs at a neighbouring pose, median', times[SCRUBS >> 1], 'ms');
  record('all pairs at a neighbouring pose, 95th percentile', times[Math.floor(SCRUBS * 0.95)], 'ms');
}

async function main(): Promise<void> {
  const design = demoDesign();
  const [building, setup] = await timed(() => setUp(design, DEFAULT_SETTINGS));
  const triangles = setup.solids.reduce((sum, { mesh }) => sum + mesh.triangles.length / 3, 0);
  console.log(
    `river racer: ${setup.solids.length} bodies, ${triangles} triangles, ${setup.pairs.length} pairs, seed ${SEED}\n`,
  );
  record('building solids and trees', building, 'ms');
  await benchQueries(setup);
  await benchScrub(setup);
  const [alone] = await timed(() => sweepInProcess(setup));
  record('full sweep 41 x 21, in process', alone / 1000, 's');
  for (const threads of [1, 2]) {
    const { sweepMs, proofMs } = ofOwnProcess(threads);
    const on = `on ${threads} thread${threads > 1 ? 's' : ''}`;
    record(`full sweep 41 x 21 ${on}`, sweepMs / 1000, 's');
    record(`proof between its steps ${on}`, proofMs / 1000, 's');
  }
  const finer = await setUp(design, { ...DEFAULT_SETTINGS, travelSteps: 81, steerSteps: 41 });
  const denser = await setUp(design, {
    ...DEFAULT_SETTINGS,
    chordToleranceMm: DEFAULT_SETTINGS.chordToleranceMm / 6.5,
  });
  const more = denser.solids.reduce((sum, { mesh }) => sum + mesh.triangles.length / 3, 0) / triangles;
  const busy = await busyOnThreadMs(setup);
  const warmBusy = await busyMs(() => sweepInProcess(setup));
  for (const [what, grown] of [
    ['four times the steps', finer],
    [`${more.toFixed(1)} times the triangles`, denser],
  ] as const) {
    record(`  ${what}, on 1 thread, processor time`, (await busyOnThreadMs(grown)) / busy, 'x');
    const warm = (await busyMs(() => sweepInProcess(grown))) / warmBusy;
    record('  the same in process, the code warm', warm, 'x');
  }
  record('memory of the command that sweeps and proves the demo, peak', memoryOfCommand(), 'MB');

  const machine = `${cpus()[0]?.model ?? 'unknown'} x${availableParallelism()} node ${process.versions.node}`;
  mkdirSync(RESULTS, { recursive: true });
  const file = resolve(RESULTS, `${machine.toLowerCase().replace(/[^a-z0-9.]+/g, '-')}.json`);
  writeFileSync(file, `${JSON.stringify({ machine, seed: SEED, triangles, lines }, null, 2)}\n`);
}

const threads = process.argv.indexOf(THREADS);
if (threads < 0) await main();
else console.log(JSON.stringify(await onThreads(Number(process.argv[threads + 1]))));
