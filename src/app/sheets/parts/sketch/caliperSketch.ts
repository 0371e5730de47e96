import type { Corner, Entry } from '../../../../design/schema.ts';
import { compose } from '../../../../math/rigid.ts';
import { axialStack, wheelFromClock } from '../../../../solids/wheelFrame.ts';
import { degToRad } from '../../../../units/angle.ts';
import { CUT, FROM_INBOARD, wheelAtDepth } from './axialView.ts';
import { bleedScrewPiece, bracketPiece, inCut, radial } from './caliperPieces.ts';
import { ASIDE, across, arc, type Point, rectangle, type Sketch, turn, upward } from './sketch.ts';

/** Radius of the clocking arc, as a fraction of the caliper's inner radius. */
const CLOCKED = 0.85;

/** A caliper along the wheel axis at the left, and cut through its middle at the right; outward from the axis is up. */
export function caliperSketch(caliper: Entry<'caliper'>, rotor: Entry<'rotor'>, corner: Corner): Sketch {
  const { mount, body, clockingDeg } = caliper;
  const { boltRadius, boltSpacing, boltDiameter, boltLength, earDiameter, earFace, earThickness } = mount;
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

  // x is depth, inboard to the right; `left` is the rotor's outboard face.
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
  const earOutboard = face + earFace - earThickness;
  const ear = rectangle(earOutboard, face + earFace, bolt[1] - earDiameter / 2, bolt[1] + earDiameter / 2);
  const boltSide = bolt[1] - boltDiameter / 2;
  const more = [bracketPiece(caliper, bolt, face), bleedScrewPiece(caliper, face)];
  const shank = rectangle(earOutboard, earOutboard + boltLength, boltSide, bolt[1] + boltDiameter / 2);
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
    outlines: [
      ...along,
      cut,
      rectangle(left, face, foot, edge),
      ear,
      shank,
      ...more.flatMap(({ outlines }) => outlines),
    ],
    axes: [
      [
        [0, 0],
        [innerRadius * Math.sin(degToRad(clockingDeg)), innerRadius * Math.cos(degToRad(clockingDeg))],
      ],
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
      turn('clockingDeg', [0, 0], CLOCKED * innerRadius, [degToRad(clockingDeg), 0]),
      radial('mount.boltRadius', bolt),
      { field: 'mount.boltSpacing', from: otherBolt, to: bolt },
      across('mount.boltDiameter', bolt[0] - boltDiameter / 2, bolt[0] + boltDiameter / 2, bolt[1]),
      across('mount.earDiameter', otherBolt[0] - earDiameter / 2, otherBolt[0] + earDiameter / 2, bolt[1]),
      inCut(across('mount.earFace', face, face + earFace, foot)),
      inCut(across('mount.earThickness', earOutboard, face + earFace, bolt[1])),
      inCut(across('mount.boltLength', earOutboard, earOutboard + boltLength, boltSide), bolt[0]),
      radial('body.innerRadius', [0, innerRadius]),
      radial('body.outerRadius', [-outerRadius * Math.sin(outer), outerRadius * Math.cos(outer)]),
      across('body.length', -half, half, outerRadius + ASIDE),
      inCut(across('body.outboardDepth', start, left, outerRadius + ASIDE)),
      inCut(across('body.inboardDepth', face, end, outerRadius + ASIDE)),
      inCut(upward('body.rotorGap', edge, slot, (left + face) / 2)),
      inCut(across('body.faceGap', face, face + faceGap, (innerRadius + edge) / 2)),
      ...more.flatMap(({ dimensions }) => dimensions),
    ],
  };
}
