import { rimDiameterMm } from '../../../../design/rimSize.ts';
import type { Corner, Entry } from '../../../../design/schema.ts';
import { compose } from '../../../../math/rigid.ts';
import { axialStack } from '../../../../solids/wheelFrame.ts';
import { axialCut, FROM_OUTBOARD, wheelAtDepth } from './axialView.ts';
import { across, diameter, rectangle, type Sketch, upward } from './sketch.ts';

/** Gap between a part and a dimension beside it, mm. */
const ASIDE = 10;

/** Section of a wheel through its axis, outboard up, the hub's mounting face at y = 0. */
export function wheelSketch(wheel: Entry<'wheel'>, corner: Corner): Sketch {
  const { lip, flangeHeight, wall, dropDepth, dropPlace, dropWidth, backspacing, offset } = wheel;
  const seat = wheel.diameterCode * 12.7;
  const half = wheel.width / 2;
  const centre = backspacing === undefined ? -(offset ?? 0) : half + lip - backspacing;
  const [inboard, outboard] = [centre - half - lip, centre + half + lip];
  const flange = seat + flangeHeight;
  const [drop0, drop1] = [centre + dropPlace - dropWidth / 2, centre + dropPlace + dropWidth / 2];
  const floor = seat - dropDepth;
  const pad = wheel.padDiameter / 2;
  const { padThickness, spokeDepth, spokeThickness, boltCircle, boltHole, centreBore } = wheel;
  // The first spoke, straight above the axis, is also drawn from outboard beside the section.
  const spoked = wheel.spokes > 0;
  const aside = flange + 5 * ASIDE + wheel.spokeWidth / 2;
  const halfSpoke = wheel.spokeWidth / 2;
  const middle = (pad + floor - wall) / 2;
  // The depth of its outboard surface at its sides there.
  const heel = rimDiameterMm(wheel.diameterCode) / 2;
  const run = (Math.hypot(middle, halfSpoke) - pad) / (heel - pad);
  const surface = padThickness + (spokeDepth + spokeThickness - padThickness) * run;
  const faceDepth = axialStack(corner).wheelFaceDepth;
  const placed =
    backspacing === undefined
      ? upward('offset', 0, centre, -flange - ASIDE)
      : upward('backspacing', 0, -backspacing, -flange - ASIDE);
  return {
    title: `Section through the axis, outboard up${spoked ? '; a spoke from outboard beside it' : ''}`,
    views: [
      axialCut(corner, faceDepth),
      {
        at: [aside, inboard],
        vehicleFromView: compose(wheelAtDepth(corner, faceDepth + surface), FROM_OUTBOARD),
      },
    ],
    outlines: spoked
      ? [rectangle(aside - halfSpoke, aside + halfSpoke, inboard + pad, inboard + floor - wall)]
      : [],
    axes: [
      [
        [0, inboard],
        [0, outboard],
      ],
    ],
    dimensions: [
      placed,
      upward('width', centre - half, centre + half, flange + ASIDE),
      diameter('diameterCode', 2 * seat, inboard - ASIDE),
      upward('lip', outboard - lip, outboard, flange + ASIDE),
      across('flangeHeight', seat, flange, outboard + ASIDE / 2),
      across('wall', seat - wall, seat, centre - half / 2),
      across('dropDepth', floor, seat, centre + dropPlace),
      upward('dropPlace', centre, centre + dropPlace, -floor + wall + ASIDE),
      upward('dropWidth', drop0, drop1, floor - wall - ASIDE),
      upward('padThickness', 0, padThickness, pad + ASIDE / 2),
      diameter('padDiameter', wheel.padDiameter, padThickness + ASIDE),
      upward('spokeDepth', 0, spokeDepth, floor - wall - 2 * ASIDE),
      upward('spokeThickness', spokeDepth, spokeDepth + spokeThickness, floor - wall - ASIDE),
      ...(spoked
        ? [{ ...across('spokeWidth', aside - halfSpoke, aside + halfSpoke, inboard + middle), view: 1 }]
        : []),
      ...(wheel.innerBarrel ?? []).flatMap((station, i) => [
        upward(`innerBarrel.${i}.depth`, 0, station.depth, station.radius),
        across(`innerBarrel.${i}.radius`, 0, station.radius, station.depth),
      ]),
      diameter('boltCircle', boltCircle, padThickness / 2),
      across('boltHole', boltCircle / 2 - boltHole / 2, boltCircle / 2 + boltHole / 2, -ASIDE / 2),
      diameter('centreBore', centreBore, -ASIDE),
    ],
  };
}
