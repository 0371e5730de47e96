import { hubMountCircleMm } from '../../../../design/fasteners/hubMountCircle.ts';
import type { Corner, Entry } from '../../../../design/schema.ts';
import { tyreDimensions } from '../../../../design/tyreSize.ts';
import { compose } from '../../../../math/rigid.ts';
import { hubMountPlaces } from '../../../../solids/fasteners/boltHoles.ts';
import { tyreShape } from '../../../../solids/tyreProfile.ts';
import { axialStack } from '../../../../solids/wheelFrame.ts';
import { degToRad } from '../../../../units/angle.ts';
import { axialCut, axialView, FROM_INBOARD, wheelAtDepth } from './axialView.ts';
import {
  ASIDE,
  across,
  arc,
  bothHalves,
  diameter,
  type Point,
  rectangle,
  type Sketch,
  turn,
  upward,
} from './sketch.ts';

/**
 * Section of a hub and its bearing housing through their axis, outboard up, the wheel's mounting face at y = 0; to its right
 * the housing's flange from inboard.
 */
export function hubSketch(hub: Entry<'hub'>, corner: Corner): Sketch {
  const [flange, pilot] = [hub.flangeDiameter / 2, hub.pilotDiameter / 2];
  const [housing, mount, spigot] = [
    hub.housingDiameter / 2,
    hub.mountFlangeDiameter / 2,
    hub.spigotDiameter / 2,
  ];
  const { flangeThickness, pilotLength, studLength, mountDepth, mountFlangeThickness, spigotLength } = hub;
  const stud = (circle: number, size: number, y0: number, y1: number) =>
    rectangle((circle - size) / 2, (circle + size) / 2, y0, y1);
  const clocking = degToRad(hub.clockingDeg);
  const centre: Point = [Math.max(flange, mount) + mount + 5 * ASIDE, 0];
  // From inboard: x toward smaller clocking, as in the wheel-axis frame.
  const places = hubMountPlaces(hub).map(([x, z]): Point => [centre[0] + x, centre[1] + z]);
  const bolts = places.map((at) => arc(at, hub.mountBoltDiameter / 2));
  const circle = hubMountCircleMm(hub);
  return {
    title: 'Section through the axis, outboard up, and the mounting flange from inboard',
    views: [
      axialView(corner, 0),
      { at: centre, vehicleFromView: compose(wheelAtDepth(corner, -mountDepth), FROM_INBOARD) },
    ],
    outlines: [
      arc(centre, mount),
      arc(centre, spigot),
      ...bolts,
      ...bothHalves([
        rectangle(0, flange, -flangeThickness, 0),
        rectangle(0, pilot, 0, pilotLength),
        stud(hub.boltCircle, hub.studDiameter, -flangeThickness, studLength),
        rectangle(0, housing, -mountDepth, -flangeThickness),
        rectangle(0, mount, -mountDepth, mountFlangeThickness - mountDepth),
        rectangle(0, spigot, -mountDepth - spigotLength, -mountDepth),
        stud(circle, hub.mountBoltDiameter, -mountDepth, mountFlangeThickness - mountDepth),
      ]),
    ],
    axes: [
      [centre, [centre[0], mount]],
      [
        [0, -mountDepth - spigotLength - ASIDE],
        [0, studLength + ASIDE],
      ],
    ],
    dimensions: [
      { ...turn('clockingDeg', centre, circle / 2, [0, -clocking]), view: 1 },
      diameter('flangeDiameter', hub.flangeDiameter, -flangeThickness / 2),
      upward('flangeThickness', -flangeThickness, 0, flange + ASIDE),
      diameter('pilotDiameter', hub.pilotDiameter, pilotLength + ASIDE / 2),
      upward('pilotLength', 0, pilotLength, pilot + ASIDE / 2),
      diameter('boltCircle', hub.boltCircle, studLength + ASIDE / 2),
      across(
        'studDiameter',
        (hub.boltCircle - hub.studDiameter) / 2,
        (hub.boltCircle + hub.studDiameter) / 2,
        studLength / 2,
      ),
      upward('studLength', 0, studLength, hub.boltCircle / 2 + ASIDE),
      upward('mountDepth', -mountDepth, 0, -Math.max(flange, mount) - ASIDE),
      diameter(
        'housingDiameter',
        hub.housingDiameter,
        (mountFlangeThickness - mountDepth - flangeThickness) / 2,
      ),
      diameter('mountFlangeDiameter', hub.mountFlangeDiameter, mountFlangeThickness / 2 - mountDepth),
      upward('mountFlangeThickness', -mountDepth, mountFlangeThickness - mountDepth, mount + ASIDE),
      diameter('spigotDiameter', hub.spigotDiameter, -mountDepth - spigotLength - ASIDE / 2),
      upward('spigotLength', -mountDepth - spigotLength, -mountDepth, spigot + ASIDE / 2),
      ...(hub.mountRectangle === undefined
        ? [diameter('mountBoltCircle', circle, mountFlangeThickness - mountDepth + ASIDE / 2)]
        : [
            { field: 'mountRectangle.width', from: places[0], to: places[3], view: 1 },
            { field: 'mountRectangle.height', from: places[1], to: places[0], view: 1 },
          ]),
      across(
        'mountBoltDiameter',
        (circle - hub.mountBoltDiameter) / 2,
        (circle + hub.mountBoltDiameter) / 2,
        mountFlangeThickness / 2 - mountDepth,
      ),
    ],
  };
}

/** Section of a tyre through its axis, outboard up, its centre plane at y = 0. */
export function tyreSketch(tyre: Entry<'tyre'>, wheel: Entry<'wheel'>, corner: Corner): Sketch {
  const shape = tyreShape(tyre, tyreDimensions(tyre), wheel);
  const { outerRadiusMm: outer, sectionWidthMm: width, treadWidthMm: tread, growthMm } = shape;
  const stack = axialStack(corner);
  return {
    title: 'Section through the axis, outboard up',
    views: [axialCut(corner, stack.rimCentreY(wheel) - stack.hubFaceY)],
    outlines: [],
    axes: [
      [
        [0, -width / 2],
        [0, width / 2],
      ],
    ],
    dimensions: [
      diameter('overallDiameter', 2 * outer, width / 2 + 3 * ASIDE),
      upward('sectionWidth', -width / 2, width / 2, (shape.heelRadiusMm + outer) / 2),
      upward('treadWidth', -tread / 2, tread / 2, outer + 2 * ASIDE),
      across('growth', outer, outer + growthMm, 0),
    ],
  };
}
