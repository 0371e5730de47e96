import { addScaled, cross, dot, length, normalize, perpendicular, scale, type Vec3 } from '../../math/vec.ts';
import type { Facets } from './facets.ts';
import type { CylinderFeature } from './feature.ts';
import type { Regions } from './regions.ts';
import { inverseOfSquares } from './solve3.ts';

/** Facets of a cylinder have equal distances from its axis to within this, mm: ten times their rounding. */
const MISFIT_MM = 2e-3;
/** Greatest sine of the angle between a facet and the cylinder's axis. */
const ASKEW = 2e-3;
/** Least sine of the fold between two facets that determine an axis. */
const LEAST_SINE = 0.2;
const LEAST_FACETS = 4;
/** Facets with less than this fraction of the largest area are slivers from a union, and are ignored. */
const SLIVER = 0.05;
/** Facets of one polygon turn by equal angles, to within this fraction. */
const UNEVEN = 0.02;

interface Facet {
  normal: Vec3;
  areaMm2: number;
  /** Distance of its plane from the origin, along the normal. */
  offsetMm: number;
}

/**
 * The cylinder through a group of facets that are connected by round folds; undefined if they belong to another surface.
 * Computed from the facets' planes, which do not change if a facet is cut: all planes of an inscribed polygon are at radius
 * x cos(half the angle between two) from the axis.
 */
export function cylinderOf(
  facets: Facets,
  regions: Regions,
  group: readonly number[],
  vertexErrorMm: number,
): Omit<CylinderFeature, 'errorMm' | 'outline'> | undefined {
  const { list, of } = facetsIn(facets, regions, group);
  const largest = of.reduce((most, one) => (one.areaMm2 > most.areaMm2 ? one : most));
  const planes = of.filter(({ areaMm2 }) => areaMm2 >= SLIVER * largest.areaMm2);
  if (planes.length < LEAST_FACETS) return undefined;
  const across = planes.map(({ normal }) => cross(largest.normal, normal));
  const widest = across.reduce((most, one) => (length(one) > length(most) ? one : most));
  if (length(widest) < LEAST_SINE) return undefined;
  const axis = normalize(widest);
  if (planes.some(({ normal }) => Math.abs(dot(normal, axis)) > ASKEW)) return undefined;

  const x = perpendicular(axis);
  const y = cross(axis, x);
  const rows = planes.map(({ normal }) => [dot(normal, x), dot(normal, y), 1] as const);
  const inverse = inverseOfSquares(rows);
  if (inverse === undefined) return undefined;
  let right: Vec3 = [0, 0, 0];
  rows.forEach((row, i) => {
    right = addScaled(right, row, planes[i].offsetMm);
  });
  const [cu, cv, signedMm] = inverse.times(...right);
  const misfitMm = Math.max(
    ...rows.map(([u, v], i) => Math.abs(u * cu + v * cv + signedMm - planes[i].offsetMm)),
  );
  const stepRad = evenStep(rows.map(([u, v]) => Math.atan2(v, u)));
  if (misfitMm > MISFIT_MM || stepRad === undefined) return undefined;

  const radiusMm = Math.abs(signedMm) / Math.cos(stepRad / 2);
  const { positions: p, triangles } = facets.mesh;
  let [low, high, within, beyond] = [
    Number.POSITIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    Number.POSITIVE_INFINITY,
    0,
  ];
  for (const t of list) {
    for (let k = 0; k < 3; k++) {
      const v = 3 * triangles[3 * t + k];
      const at: Vec3 = [p[v], p[v + 1], p[v + 2]];
      const away = Math.hypot(dot(at, x) - cu, dot(at, y) - cv);
      within = Math.min(within, away);
      beyond = Math.max(beyond, away);
      low = Math.min(low, dot(at, axis));
      high = Math.max(high, dot(at, axis));
    }
  }
  // Every vertex is on a facet, so its distance is between those of the facet's middle and corners.
  if (within < Math.abs(signedMm) - MISFIT_MM || beyond > radiusMm + MISFIT_MM) return undefined;
  // A plane through rounded vertices is off by at most their error, and by as much again at its far side.
  const e = 2 * vertexErrorMm + misfitMm;
  const gain = rows.reduce((sum, row) => sum + Math.abs(inverse.times(...row)[2]), 0);
  return {
    kind: 'cylinder',
    centre: addScaled(addScaled(scale(x, cu), y, cv), axis, (low + high) / 2),
    axis,
    radiusMm,
    form: signedMm < 0 ? 'hole' : 'round',
    areaMm2: of.reduce((sum, { areaMm2 }) => sum + areaMm2, 0),
    triangles: Uint32Array.from(list),
    radiusErrorMm: (e * gain) / Math.cos(stepRad / 2),
    tiltErrorRad: Math.atan2(2 * e, high - low),
  };
}

function facetsIn(
  { mesh: { positions: p, triangles }, unit, weight }: Facets,
  { of: regionOf }: Regions,
  group: readonly number[],
): { list: number[]; of: Facet[] } {
  const sums = new Map(group.map((region) => [region, { normal: [0, 0, 0] as Vec3, weight: 0, moment: 0 }]));
  const list: number[] = [];
  const members: number[][] = [];
  regionOf.forEach((region, t) => {
    const sum = sums.get(region);
    if (sum === undefined) return;
    list.push(t);
    members[region] ??= [];
    members[region].push(t);
    sum.normal = addScaled(sum.normal, [unit[3 * t], unit[3 * t + 1], unit[3 * t + 2]], weight[t]);
    sum.weight += weight[t];
  });
  const of = [...sums].flatMap(([region, sum]): Facet[] => {
    if (!(length(sum.normal) > 0)) return [];
    const normal = normalize(sum.normal);
    let offset = 0;
    for (const t of members[region]) {
      for (let k = 0; k < 3; k++) {
        const v = 3 * triangles[3 * t + k];
        offset += (weight[t] / 3) * dot([p[v], p[v + 1], p[v + 2]], normal);
      }
    }
    return [{ normal, areaMm2: sum.weight / 2, offsetMm: offset / sum.weight }];
  });
  return { list, of };
}

/** Angle between neighbouring directions if it divides a full turn, ignoring missing directions; else undefined. */
function evenStep(angles: readonly number[]): number | undefined {
  const sorted = [...angles].sort((a, b) => a - b);
  const gaps = sorted.map((angle, i) =>
    i === 0 ? angle + 2 * Math.PI - sorted[sorted.length - 1] : angle - sorted[i - 1],
  );
  const least = Math.min(...gaps);
  const parts = Math.round((2 * Math.PI) / least);
  const step = (2 * Math.PI) / parts;
  const isEven = gaps.every((gap) => Math.abs(gap / step - Math.round(gap / step)) < UNEVEN);
  return parts >= 12 && isEven ? step : undefined;
}
