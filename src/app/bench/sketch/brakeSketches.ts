import type { Corner, Entry } from '../../../design/schema.ts';
import { compose, fromAxes } from '../../../math/rigid.ts';
import { axialStack, wheelFromClock } from '../../../solids/wheelFrame.ts';
import { axialView, wheelAtDepth } from './axialView.ts';
import {
  across,
  arc,
  bothHalves,
  diameter,
  type Point,
  rectangle,
  type Sketch,
  type SketchDimension,
  upward,
} from './sketch.ts';

/** Between a part and a dimension beside it, mm. */
const ASIDE = 8;
/** Views in the caliper's own frame: x toward lesser clocking, y outboard, z outward from the axis. */
const FROM_INBOARD = fromAxes([1, 0, 0], [0, 0, 1], [0, -1, 0], [0, 0, 0]);
const CUT = fromAxes([0, -1, 0], [0, 0, 1], [-1, 0, 0], [0, 0, 0]);

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

/** A caliper along the wheel axis at the left, cut through its middle at the right, outward from the axis up. */
export function caliperSketch(
  { mount, body, clockingDeg }: Entry<'caliper'>,
  rotor: Entry<'rotor'>,
  corner: Corner,
): Sketch {
  const { boltRadius, boltSpacing, boltDiameter, earDiameter, earFace, earThickness } = mount;
  const { innerRadius, outerRadius, length, outboardDepth, inboardDepth, rotorGap, faceGap } = body;
  const half = length / 2;
  const spread = (radius: number) => Math.asin(Math.min(1, half / radius));
  const [outer, inner] = [spread(outerRadius), spread(innerRadius)];
  const bolt: Point = [boltSpacing / 2, Math.sqrt(boltRadius ** 2 - (boltSpacing / 2) ** 2)];
  const otherBolt: Point = [-bolt[0], bolt[1]];
  const along = [
    [...arc([0, 0], outerRadius, -outer, outer), ...arc([0, 0], innerRadius, inner, -inner)],
    ...[bolt, otherBolt].flatMap((at) => [arc(at, earDiameter / 2), arc(at, boltDiameter / 2)]),
  ];

  // Depth runs to the right, inboard; 0 is the rotor's outboard face.
  const left = Math.max(half, boltSpacing / 2 + earDiameter / 2) + 5 * ASIDE + outboardDepth;
  const [face, edge] = [left + rotor.thickness, rotor.diameter / 2];
  const [start, end] = [left - outboardDepth, face + inboardDepth];
  const slot = edge + rotorGap;
  const cut: Point[] = [
    [start, innerRadius],
    [left - faceGap, innerRadius],
    [left - faceGap, slot],
    [face + faceGap, slot],
    [face + faceGap, innerRadius],
    [end, innerRadius],
    [end, outerRadius],
    [start, outerRadius],
  ];
  const foot = Math.min(innerRadius, bolt[1] - earDiameter / 2) - ASIDE;
  const ear = rectangle(
    face + earFace - earThickness,
    face + earFace,
    bolt[1] - earDiameter / 2,
    bolt[1] + earDiameter / 2,
  );
  const radial = (field: string, to: Point): SketchDimension => ({ field, from: [0, 0], to });
  const inCut = (dimension: SketchDimension): SketchDimension => ({ ...dimension, view: 1 });
  const faces = axialStack(corner).rotorFaces(rotor);
  const vehicleFromClock = (depth: number) =>
    compose(wheelAtDepth(corner, depth), wheelFromClock(clockingDeg));
  return {
    title: 'Along the wheel axis, and cut through the middle with outboard to the left',
    views: [
      // From inboard, on the plane of the ears' inboard face.
      { at: [0, 0], vehicleFromView: compose(vehicleFromClock(faces.inboard - earFace), FROM_INBOARD) },
      { at: [left, 0], vehicleFromView: compose(vehicleFromClock(faces.outboard), CUT) },
    ],
    outlines: [...along, cut, rectangle(left, face, foot, edge), ear],
    axes: [
      [
        [-ASIDE, 0],
        [ASIDE, 0],
      ],
      [
        [0, -ASIDE],
        [0, ASIDE],
      ],
    ],
    dimensions: [
      radial('mount.boltRadius', bolt),
      { field: 'mount.boltSpacing', from: otherBolt, to: bolt },
      across('mount.boltDiameter', bolt[0] - boltDiameter / 2, bolt[0] + boltDiameter / 2, bolt[1]),
      across('mount.earDiameter', otherBolt[0] - earDiameter / 2, otherBolt[0] + earDiameter / 2, bolt[1]),
      inCut(across('mount.earFace', face, face + earFace, foot)),
      inCut(across('mount.earThickness', face + earFace - earThickness, face + earFace, bolt[1])),
      radial('body.innerRadius', [0, innerRadius]),
      radial('body.outerRadius', [-outerRadius * Math.sin(outer), outerRadius * Math.cos(outer)]),
      across('body.length', -half, half, outerRadius + ASIDE),
      inCut(across('body.outboardDepth', start, left, outerRadius + ASIDE)),
      inCut(across('body.inboardDepth', face, end, outerRadius + ASIDE)),
      inCut(upward('body.rotorGap', edge, slot, (left + face) / 2)),
      inCut(across('body.faceGap', face, face + faceGap, (innerRadius + edge) / 2)),
    ],
  };
}
