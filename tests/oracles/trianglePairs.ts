import { between } from './random.ts';

/** Classes of triangle pairs, general and degenerate: nine coordinates each. */
export type PairMaker = (random: () => number) => [number[], number[]];

const point = (random: () => number, size: number): number[] => [
  between(random, -size, size),
  between(random, -size, size),
  between(random, -size, size),
];
const triangle = (random: () => number, size: number): number[] => [
  ...point(random, size),
  ...point(random, size),
  ...point(random, size),
];
const shifted = (t: readonly number[], by: readonly number[]): number[] => t.map((x, k) => x + by[k % 3]);
const mixed = (t: readonly number[], u: number, v: number): number[] =>
  [0, 1, 2].map((k) => t[k] + u * (t[3 + k] - t[k]) + v * (t[6 + k] - t[k]));
/** Collinear corners: no area. */
const inLine = (random: () => number, size: number): number[] => {
  const [p, q] = [point(random, size), point(random, size)];
  const s = between(random, -0.5, 1.5);
  return [...p, ...q, ...p.map((x, k) => x + s * (q[k] - x))];
};
/** As thin as rounding allows. */
const needle = (random: () => number, size: number): number[] => {
  const t = inLine(random, size);
  const thin = 10 ** between(random, -16, -6);
  return t.map((x, k) => (k < 6 ? x : x + thin * between(random, -1, 1)));
};
const onLattice = (random: () => number): number[] =>
  Array.from({ length: 9 }, () => Math.floor(4 * random()));

export const PAIRS: Record<string, PairMaker> = {
  general: (random) => [triangle(random, 10), triangle(random, 10)],
  'far apart': (random) => [triangle(random, 10), shifted(triangle(random, 10), point(random, 1000))],
  'small in the large': (random) => [
    triangle(random, 500),
    shifted(triangle(random, 0.5), point(random, 300)),
  ],
  'on a lattice': (random) => [onLattice(random), onLattice(random)],
  'in one plane': (random) => {
    const t = triangle(random, 10);
    const in3 = () => mixed(t, between(random, -2, 2), between(random, -2, 2));
    return [t, [...in3(), ...in3(), ...in3()]];
  },
  'in parallel planes': (random) => {
    const flat = () => triangle(random, 10).map((x, k) => (k % 3 === 2 ? 0 : x));
    return [flat(), shifted(flat(), [0, 0, between(random, 0, 3)])];
  },
  'corner on the face': (random) => {
    const t = triangle(random, 10);
    const u = random();
    return [t, [...mixed(t, u, (1 - u) * random()), ...point(random, 10), ...point(random, 10)]];
  },
  'one corner shared': (random) => {
    const t = triangle(random, 10);
    return [t, [...point(random, 10), ...t.slice(3, 6), ...point(random, 10)]];
  },
  'one edge shared': (random) => {
    const t = triangle(random, 10);
    return [t, [...t.slice(3, 6), ...t.slice(0, 3), ...point(random, 10)]];
  },
  'edges nearly parallel': (random) => {
    const t = triangle(random, 10);
    const tilt = 10 ** between(random, -15, -5);
    const other = t.map((x) => x + tilt * between(random, -1, 1));
    return [t, shifted(other, point(random, random() < 0.5 ? 5 : 1e-6))];
  },
  needles: (random) => [needle(random, 10), needle(random, 10)],
  'needle and triangle': (random) => [needle(random, 10), triangle(random, 10)],
  'no area': (random) => [inLine(random, 10), triangle(random, 10)],
  'neither has area': (random) => [inLine(random, 10), inLine(random, 10)],
  'a point': (random) => {
    const p = point(random, 10);
    return [[...p, ...p, ...p], triangle(random, 10)];
  },
  'two points': (random) => {
    const [p, q] = [point(random, 10), point(random, 10)];
    return [
      [...p, ...p, ...p],
      [...q, ...q, ...q],
    ];
  },
  'the same twice': (random) => {
    const t = triangle(random, 10);
    return [t, [...t.slice(6), ...t.slice(0, 6)]];
  },
};
