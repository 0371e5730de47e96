/** Random numbers in [0, 1), repeatable for a seed (mulberry32, public domain, Tommy Ettinger). */
export function mulberry32(seed: number): () => number {
  let a = seed | 0;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Number of random cases: `few` in each run, `many` in `npm run test:deep`, which is for releases. */
export const cases = (few: number, many: number): number =>
  process.env.DAYLIGHT_DEEP === undefined ? few : many;

/** A random number from `least` to `most`. */
export const between = (random: () => number, least: number, most: number): number =>
  least + (most - least) * random();
