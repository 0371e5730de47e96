import type { Rigid } from '../math/rigid.ts';
import type { Mesh } from './solid.ts';

/** A closed outline: x y of each corner, mm in the plane; the last corner joins the first. */
export type Outline = Float64Array;

/** One connected piece of a section: the area inside `outer` and outside `holes`. */
export interface SectionRegion {
  /** Anticlockwise, viewed from the side to which the plane's z points. */
  outer: Outline;
  /** Clockwise. */
  holes: readonly Outline[];
}

/**
 * A vertex this near the plane counts as in it, mm: far above the rounding error of coordinates of a few thousand (1e-12),
 * so that a face in the plane is entirely in it.
 */
const IN_PLANE_MM = 1e-9;

/**
 * The section of a closed outward mesh with the plane z = 0 of a frame, in that frame's x and y. `meshFromPlane` transforms
 * points of the frame to the mesh. The outlines are exact for the mesh, except for rounding; a true round surface differs
 * from the mesh by its chord error, which appears enlarged if the plane grazes the surface.
 *
 * A vertex in the plane counts as above it, as if the plane were slightly lower: the plane crosses two edges of a triangle
 * or none, so that every outline closes. If a whole face is in the plane, the section is that face if the body is below
 * it, and empty if the body is above. Throws an Error if the mesh is not closed at the plane.
 */
export function sectionOf(mesh: Mesh, meshFromPlane: Rigid): SectionRegion[] {
  return nested(outlinesOf(mesh, meshFromPlane));
}

/** Area of the regions of one section, mm². */
export const sectionAreaMm2 = (regions: readonly SectionRegion[]): number =>
  regions.reduce((sum, { outer, holes }) => sum + outlineArea(outer) + sumOf(holes.map(outlineArea)), 0);

const sumOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);

/** All outlines of the section: those of material anticlockwise, those of holes clockwise. */
function outlinesOf({ positions: p, triangles }: Mesh, t: Rigid): Outline[] {
  const vertices = p.length / 3;
  const height = new Float64Array(vertices);
  for (let v = 0; v < vertices; v++) {
    const [x, y, z] = [p[3 * v] - t[3], p[3 * v + 1] - t[7], p[3 * v + 2] - t[11]];
    const h = t[2] * x + t[6] * y + t[10] * z;
    height[v] = Math.abs(h) < IN_PLANE_MM ? 0 : h;
  }
  /** Points where edges of the mesh cross the plane, x y each, and their indices by edge. */
  const places: number[] = [];
  const placeOf = new Map<number, number>();
  const crossing = (above: number, below: number): number => {
    const edge = Math.min(above, below) * vertices + Math.max(above, below);
    const known = placeOf.get(edge);
    if (known !== undefined) return known;
    // Interpolated from the upper end, so that every edge to a vertex in the plane gives exactly that vertex.
    const s = height[above] / (height[above] - height[below]);
    const at = (k: number) => {
      const high = p[3 * above + k];
      return high + s * (p[3 * below + k] - high) - t[4 * k + 3];
    };
    const [x, y, z] = [at(0), at(1), at(2)];
    places.push(t[0] * x + t[4] * y + t[8] * z, t[1] * x + t[5] * y + t[9] * z);
    const place = places.length / 2 - 1;
    placeOf.set(edge, place);
    return place;
  };
  /** Each crossed triangle gives a segment. With the material at its left, it starts at the edge that goes down. */
  const to: number[] = [];
  const later: number[] = [];
  const leaving = new Map<number, number>();
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = [triangles[i], triangles[i + 1], triangles[i + 2]];
    const [ha, hb, hc] = [height[a] >= 0, height[b] >= 0, height[c] >= 0];
    if (ha === hb && hb === hc) continue;
    const down = ha && !hb ? crossing(a, b) : hb && !hc ? crossing(b, c) : crossing(c, a);
    const up = !ha && hb ? crossing(b, a) : !hb && hc ? crossing(c, b) : crossing(a, c);
    later.push(leaving.get(down) ?? -1);
    leaving.set(down, to.length);
    to.push(up);
  }
  const used = new Uint8Array(to.length);
  const outlines: Outline[] = [];
  for (const start of leaving.keys()) {
    for (let first = nextOf(start); first >= 0; first = nextOf(start)) {
      const line: number[] = [];
      let at = start;
      for (let segment = first; ; segment = nextOf(at)) {
        if (segment < 0) throw new Error('the mesh is not closed where the plane cuts it');
        used[segment] = 1;
        at = to[segment];
        const [x, y] = [places[2 * at], places[2 * at + 1]];
        // Edges that meet at a vertex in the plane cross it at one point.
        if (x !== line[line.length - 2] || y !== line[line.length - 1]) line.push(x, y);
        if (at === start) break;
      }
      while (line.length > 2 && line[0] === line[line.length - 2] && line[1] === line[line.length - 1])
        line.length -= 2;
      const outline = Float64Array.from(line);
      // If the body touches the plane only at a point or along an edge, the outline encloses no area.
      if (Math.abs(outlineArea(outline)) > IN_PLANE_MM * perimeter(outline)) outlines.push(outline);
    }
  }
  return outlines;

  /** An unused segment that starts at a point, or -1. Several start there if more than two triangles share an edge. */
  function nextOf(place: number): number {
    let segment = leaving.get(place) ?? -1;
    while (segment >= 0 && used[segment]) segment = later[segment];
    return segment;
  }
}

/** Signed area, mm²: positive anticlockwise. Relative to the first corner, to keep precision far from the origin. */
function outlineArea(outline: Outline): number {
  let twice = 0;
  const [x0, y0] = outline;
  for (let i = 2; i + 3 < outline.length; i += 2)
    twice += (outline[i] - x0) * (outline[i + 3] - y0) - (outline[i + 2] - x0) * (outline[i + 1] - y0);
  return twice / 2;
}

function perimeter(outline: Outline): number {
  let sum = 0;
  const n = outline.length;
  for (let i = 0; i < n; i += 2)
    sum += Math.hypot(outline[(i + 2) % n] - outline[i], outline[(i + 3) % n] - outline[i + 1]);
  return sum;
}

/** Assigns each hole to the smallest outline around it. */
function nested(outlines: readonly Outline[]): SectionRegion[] {
  const areas = outlines.map(outlineArea);
  const regions = outlines.flatMap((outer, i) =>
    areas[i] > 0 ? [{ outer, area: areas[i], holes: [] as Outline[] }] : [],
  );
  regions.sort((a, b) => a.area - b.area);
  outlines.forEach((hole, i) => {
    if (areas[i] > 0) return;
    const enclosing = regions.find(({ outer, area }) => area > -areas[i] && mostlyInside(hole, outer));
    if (enclosing === undefined) throw new Error('the section has a hole that no outline encloses');
    enclosing.holes.push(hole);
  });
  return regions.map(({ outer, holes }) => ({ outer, holes }));
}

/** Whether an outline is inside another that it does not cross. Some of its corners may be on the other. */
function mostlyInside(inner: Outline, outer: Outline): boolean {
  let inside = 0;
  for (let i = 0; i < inner.length; i += 2) inside += isInside(inner[i], inner[i + 1], outer) ? 1 : -1;
  return inside > 0;
}

/** Whether a point is inside an outline: a ray to the right crosses it an odd number of times. */
function isInside(x: number, y: number, outline: Outline): boolean {
  let inside = false;
  const n = outline.length;
  for (let i = 0; i < n; i += 2) {
    const [x0, y0, x1, y1] = [outline[i], outline[i + 1], outline[(i + 2) % n], outline[(i + 3) % n]];
    if (y0 > y !== y1 > y && x < x0 + ((y - y0) * (x1 - x0)) / (y1 - y0)) inside = !inside;
  }
  return inside;
}
