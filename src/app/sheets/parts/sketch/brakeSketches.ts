import type { Corner, Entry } from '../../../../design/schema.ts';
import { compose } from '../../../../math/rigid.ts';
import { circlePlaces } from '../../../../solids/fasteners/boltHoles.ts';
import { axialStack } from '../../../../solids/wheelFrame.ts';
import { degToRad } from '../../../../units/angle.ts';
import { axialCut, FROM_OUTBOARD, wheelAtDepth } from './axialView.ts';
import { ASIDE, arc, diameter, type Point, type Sketch, turn, upward } from './sketch.ts';

/** Section of a spacer through its axis. */
export function spacerSketch(spacer: Entry<'spacer'>, corner: Corner): Sketch {
  const { thickness, outerDiameter, innerDiameter } = spacer;
  const { inboard } = axialStack(corner).spacerFaces(spacer);
  return {
    views: [axialCut(corner, inboard)],
    title: 'Section through the axis',
    outlines: [],
    axes: [
      [
        [0, -ASIDE],
        [0, thickness + ASIDE],
      ],
    ],
    dimensions: [
      upward('thickness', 0, thickness, outerDiameter / 2 + ASIDE),
      diameter('outerDiameter', outerDiameter, thickness + ASIDE),
      diameter('innerDiameter', innerDiameter, -ASIDE),
    ],
  };
}

/**
 * Section of a rotor through its axis, outboard up, the hat's outer face at y = 0; to its right the hat from outboard if it
 * has its own bolts.
 */
export function rotorSketch(rotor: Entry<'rotor'>, corner: Corner): Sketch {
  const { thickness, hatThickness, height, centreBore } = rotor;
  const [edge, hat, bore] = [rotor.diameter / 2, rotor.hatDiameter / 2, centreBore / 2];
  const { hatOuter } = axialStack(corner).rotorFaces(rotor);
  const bolts = hatBoltsPiece(rotor, [edge + hat + 4 * ASIDE, 0]);
  return {
    title: `Section through the axis, outboard up${bolts === undefined ? '' : ', and the hat from outboard'}`,
    views: [
      axialCut(corner, hatOuter),
      ...(bolts === undefined
        ? []
        : [
            {
              at: bolts.at,
              vehicleFromView: compose(wheelAtDepth(corner, hatOuter), FROM_OUTBOARD),
              cuts: [-hatThickness / 2],
            },
          ]),
    ],
    outlines: bolts?.outlines ?? [],
    axes: [
      [
        [0, -height - ASIDE],
        [0, ASIDE],
      ],
    ],
    dimensions: [
      diameter('diameter', rotor.diameter, -height - 2 * ASIDE),
      upward('thickness', -height, thickness - height, edge + ASIDE),
      ...(rotor.innerDiameter === undefined
        ? []
        : [diameter('innerDiameter', rotor.innerDiameter, -height - ASIDE)]),
      diameter('hatDiameter', rotor.hatDiameter, ASIDE),
      upward('hatThickness', -hatThickness, 0, (bore + hat) / 2),
      upward('height', -height, 0, -edge - ASIDE),
      diameter('centreBore', centreBore, -hatThickness - ASIDE),
      ...(bolts?.dimensions ?? []),
    ],
  };
}

/** Drawn radius of a hat bolt hole, which has no field, mm. */
const HOLE_RADIUS_MM = 4;

/** The hat of a rotor with its own bolts, from outboard about a centre, the rear to the right; undefined without bolts. */
function hatBoltsPiece(
  { hatBolts }: Entry<'rotor'>,
  at: Point,
): (Pick<Sketch, 'outlines' | 'dimensions'> & { at: Point }) | undefined {
  if (hatBolts === undefined) return undefined;
  const { count, circle, clockingDeg } = hatBolts;
  const places = circlePlaces(count, circle, clockingDeg).map(([x, z]): Point => [at[0] - x, at[1] + z]);
  return {
    at,
    outlines: places.map((place) => arc(place, HOLE_RADIUS_MM)),
    dimensions: [
      {
        field: 'hatBolts.circle',
        from: [at[0] - circle / 2, at[1]],
        to: [at[0] + circle / 2, at[1]],
        view: 1,
      },
      { ...turn('hatBolts.clockingDeg', at, circle / 2, [0, degToRad(clockingDeg)]), view: 1 },
    ],
  };
}
