import type { Corner, Entry } from '../../../design/schema.ts';
import { axialStack } from '../../../solids/wheelFrame.ts';
import { axialView } from './axialView.ts';
import { bothHalves, diameter, type Point, rectangle, type Sketch, upward } from './sketch.ts';

/** Between a part and a dimension beside it, mm. */
const ASIDE = 8;

/** Section of a spacer through its axis. */
export function spacerSketch(spacer: Entry<'spacer'>, corner: Corner): Sketch {
  const { thickness, outerDiameter, innerDiameter } = spacer;
  const { inboard } = axialStack(corner).spacerFaces(spacer);
  return {
    views: [axialView(corner, inboard)],
    title: 'Section through the axis',
    outlines: bothHalves([rectangle(innerDiameter / 2, outerDiameter / 2, 0, thickness)]),
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

/** Section of a rotor through its axis, outboard up, the hat's outer face at y = 0. */
export function rotorSketch(rotor: Entry<'rotor'>, corner: Corner): Sketch {
  const { thickness, hatThickness, height, centreBore } = rotor;
  const [edge, hat, bore] = [rotor.diameter / 2, rotor.hatDiameter / 2, centreBore / 2];
  const inside = (rotor.innerDiameter ?? rotor.hatDiameter) / 2;
  // The hat is drawn as thick at its side as at its face.
  const bell: Point[] = [
    [bore, 0],
    [hat, 0],
    [hat, -height],
    [hat - hatThickness, -height],
    [hat - hatThickness, -hatThickness],
    [bore, -hatThickness],
  ];
  return {
    title: 'Section through the axis, outboard up',
    views: [axialView(corner, axialStack(corner).rotorFaces(rotor).hatOuter)],
    outlines: bothHalves([bell, rectangle(inside, edge, -height, thickness - height)]),
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
    ],
  };
}
