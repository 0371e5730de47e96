import { compose, translation } from '../../../../math/rigid.ts';
import { type Outline, sectionOf } from '../../../../solids/section.ts';
import type { Solid } from '../../../../solids/solid.ts';
import type { Point, Sketch } from './sketch.ts';

/** A cut through a solid, in the sketch: the outlines of its material and of the holes in it. */
export type Cut = readonly (readonly Point[])[];

/** The cuts of a sketch's views through the solids of its part. */
export const cutsOf = ({ views }: Sketch, solids: readonly Solid[]): Cut[] =>
  views.flatMap(({ at: [dx, dy], vehicleFromView, carrier, cuts = [] }) => {
    const cutSolids = solids.filter((solid) => carrier === undefined || solid.carrier === carrier);
    const inSketch = (outline: Outline): Point[] =>
      Array.from({ length: outline.length / 2 }, (_, k) => [dx + outline[2 * k], dy + outline[2 * k + 1]]);
    return cuts.flatMap((out) => {
      const plane = compose(vehicleFromView, translation([0, 0, out]));
      return cutSolids.map(({ mesh, shown = mesh }) =>
        sectionOf(shown, plane).flatMap(({ outer, holes }) => [outer, ...holes].map(inSketch)),
      );
    });
  });
