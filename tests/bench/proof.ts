/**
 * Proofs between steps held against sweeps 20 times finer, over 50 random corners: `npx tsx tests/bench/proof.ts`. The
 * interval is asked for at 0.1 mm, and at 0.005 mm, where a bound that is too bold has less to hide behind.
 */
import { type ComparisonCounts, holdAgainstFiner } from '../sweep/holdAgainstFiner.ts';

const CORNERS = 50;

for (const toleranceMm of [0.1, 0.005]) {
  const total: ComparisonCounts = { pairs: 0, bounded: 0, touching: 0, widestMm: 0, cells: 0 };
  for (let seed = 1; seed <= CORNERS; seed++) {
    const counts = holdAgainstFiner(seed, toleranceMm);
    total.pairs += counts.pairs;
    total.bounded += counts.bounded;
    total.touching += counts.touching;
    total.cells += counts.cells;
    total.widestMm = Math.max(total.widestMm, counts.widestMm);
  }
  console.log(
    `tolerance ${toleranceMm} mm: ${CORNERS} corners, ${total.pairs} pairs, ${total.touching} touch, ${total.bounded} bounded, widest ${total.widestMm.toFixed(4)} mm, ${total.cells} cells; no bound beaten`,
  );
}
