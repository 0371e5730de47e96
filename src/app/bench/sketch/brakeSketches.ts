import type { Entry } from '../../../design/schema.ts';
import {
  across,
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

/** Section of a spacer through its axis. */
export function spacerSketch({ thickness, outerDiameter, innerDiameter }: Entry<'spacer'>): Sketch {
  return {
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
export function rotorSketch(rotor: Entry<'rotor'>): Sketch {
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

const RING_STEPS = 24;

/** A circle, or the part of it between two angles from straight up, toward +x. */
const arc = ([x, y]: Point, radius: number, from = 0, to = 2 * Math.PI): Point[] =>
  Array.from({ length: RING_STEPS + 1 }, (_, i): Point => {
    const angle = from + ((to - from) * i) / RING_STEPS;
    return [x + radius * Math.sin(angle), y + radius * Math.cos(angle)];
  });

/** A caliper along the wheel axis at the left, cut through its middle at the right, outward from the axis up. */
export function caliperSketch({ mount, body }: Entry<'caliper'>, rotor: Entry<'rotor'>): Sketch {
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
  return {
    title: 'Along the wheel axis, and cut through the middle with outboard to the left',
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
      across('mount.earFace', face, face + earFace, foot),
      across('mount.earThickness', face + earFace - earThickness, face + earFace, bolt[1]),
      radial('body.innerRadius', [0, innerRadius]),
      radial('body.outerRadius', [-outerRadius * Math.sin(outer), outerRadius * Math.cos(outer)]),
      across('body.length', -half, half, outerRadius + ASIDE),
      across('body.outboardDepth', start, left, outerRadius + ASIDE),
      across('body.inboardDepth', face, end, outerRadius + ASIDE),
      upward('body.rotorGap', edge, slot, (left + face) / 2),
      across('body.faceGap', face, face + faceGap, (innerRadius + edge) / 2),
    ],
  };
}
