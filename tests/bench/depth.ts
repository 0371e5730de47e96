/**
 * Time that the depth of an overlap takes, and how far it is left open, over seeded random bars, solid and hollow:
 * `npx tsx tests/bench/depth.ts`. Processor time of a first measurement, bodies prepared before; wanted is 100 ms a pair.
 */
import { PairQuery } from '../../src/clearance/query.ts';
import { reportedClearance } from '../../src/clearance/reportedClearance.ts';
import { randomBars } from '../oracles/randomBars.ts';

const SEEDS = 80;

for (const hollow of [false, true]) {
  const times: number[] = [];
  let open = 0;
  let mostOpen = 0;
  for (let seed = 1; seed <= SEEDS; seed++) {
    const { bodies, aFromB } = randomBars(seed, hollow);
    const query = new PairQuery(...bodies);
    const start = process.cpuUsage();
    query.run(aFromB, 60);
    const ms = process.cpuUsage(start).user / 1000;
    if (query.kind !== 'overlapping') continue;
    times.push(ms);
    if (reportedClearance(query, 0).errorMm === Number.POSITIVE_INFINITY) open++;
    else mostOpen = Math.max(mostOpen, -query.errorMm / query.distanceMm);
  }
  times.sort((a, b) => a - b);
  const at = (share: number) => times[Math.floor(share * (times.length - 1))].toFixed(1);
  console.log(
    `${hollow ? 'hollow' : 'solid'} bars: ${times.length} overlaps, ${open} without an upper bound, else open by ${(100 * mostOpen).toFixed(1)} % at most;`,
    `median ${at(0.5)} ms, 95th percentile ${at(0.95)} ms, longest ${at(1)} ms`,
  );
}
