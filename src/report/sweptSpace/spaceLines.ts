import type { PlaneCrossing } from '../../studies/sweptSpace/planeCrossing.ts';
import type { SweptSpace } from '../../studies/sweptSpace/sweptSpace.ts';
import { decimal, type Figures } from '../figures.ts';

const MM3_PER_LITRE = 1e6;

/** What the space is, and how far it can be trusted, one sentence each. */
export function spaceSentences({ request, solid }: SweptSpace, figures: Figures): string[] {
  const length = figures.placeWithUnit;
  const [low, high] = request.travelMm;
  const [from, to] = request.steer;
  const steerWords =
    from === -1 && to === 1 ? 'all steering' : `steer ${decimal(from, 2)} to ${decimal(to, 2)} of lock`;
  const { positions } = solid.mesh;
  const extent = [0, 1, 2].map((axis) => {
    let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (let i = axis; i < positions.length; i += 3) {
      least = Math.min(least, positions[i]);
      most = Math.max(most, positions[i]);
    }
    return length(most - least);
  });
  return [
    `Tyre and wheel over travel ${length(low)} to ${length(high)} and ${steerWords}, with ${length(request.growthMm)} of growth and ${length(request.marginMm)} of margin.`,
    `Size along X, Y, Z: ${extent.join(', ')}. Volume: ${(solid.volumeMm3 / MM3_PER_LITRE).toFixed(1)} litres.`,
    `The solid contains tyre and wheel at every pose of this range, proved between steps too.`,
    `No point of it is more than ${figures.boundWithUnit(request.withinMm)} outside the true swept space.`,
  ];
}

/** Whether and where the space crosses a plane. */
export function planeSentence(
  { plane, depthMm, errorMm, travelMm, steer, at }: PlaneCrossing,
  figures: Figures,
): string {
  const length = figures.placeWithUnit;
  const where = `at travel ${length(travelMm)}, steer ${decimal(steer, 2, true)}, near X ${length(at[0])}, Y ${length(at[1])}, Z ${length(at[2])}`;
  if (depthMm > 0)
    return `Plane ${plane.label}: crossed by ${length(depthMm)} to ${length(depthMm + errorMm)} at the deepest, ${where}.`;
  if (depthMm + errorMm < 0)
    return `Plane ${plane.label}: not crossed; ${length(-depthMm - errorMm)} to ${length(-depthMm)} are left, ${where}.`;
  return `Plane ${plane.label}: may be touched, within ${length(errorMm)}, ${where}.`;
}
