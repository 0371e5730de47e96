/** A corner of an outline in the plane, mm. */
export type Corner = readonly [number, number];

/** Corners of a convex outline, anticlockwise. */
export type ConvexOutline = readonly Corner[];

const turn = (a: Corner, b: Corner, c: Corner): number =>
  (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]);

/** Whether all corners turn anticlockwise, or go straight on. */
const isConvex = (outline: ConvexOutline): boolean =>
  outline.every(
    (corner, i) => turn(outline.at(i - 1) as Corner, corner, outline[(i + 1) % outline.length]) >= 0,
  );

/**
 * Merges triangles of a region into fewer convex outlines: neighbours are joined across an edge as long as the result is
 * convex (Hertel and Mehlhorn 1983, from memory). Each triangle is three indices of `corners`, anticlockwise. Triangles
 * without area are left out.
 */
export function convexPieces(
  corners: readonly Corner[],
  triangles: readonly (readonly [number, number, number])[],
): ConvexOutline[] {
  let pieces: number[][] = triangles
    .filter(([a, b, c]) => turn(corners[a], corners[b], corners[c]) > 0)
    .map((triangle) => [...triangle]);
  for (let merged = true; merged; ) {
    merged = false;
    const owner = new Map<string, number>();
    pieces.forEach((piece, p) => {
      piece.forEach((from, i) => {
        owner.set(`${from} ${piece[(i + 1) % piece.length]}`, p);
      });
    });
    const joined = new Set<number>();
    for (let p = 0; p < pieces.length; p++) {
      if (joined.has(p)) continue;
      const piece = pieces[p];
      for (let i = 0; i < piece.length; i++) {
        const [from, to] = [piece[i], piece[(i + 1) % piece.length]];
        const q = owner.get(`${to} ${from}`);
        if (q === undefined || q === p || joined.has(q)) continue;
        const other = pieces[q];
        const start = other.indexOf(from);
        const rest = [...other.slice(start + 1), ...other.slice(0, start)].filter((index) => index !== to);
        const both = [...piece.slice(0, i + 1), ...rest, ...piece.slice(i + 1)];
        if (new Set(both).size < both.length || !isConvex(both.map((index) => corners[index]))) continue;
        pieces[p] = both;
        pieces[q] = [];
        joined.add(p).add(q);
        merged = true;
        break;
      }
    }
    pieces = pieces.filter((piece) => piece.length > 0);
  }
  return pieces.map((piece) => piece.map((index) => corners[index]));
}
