import type { Entry } from '../../design/schema.ts';
import { applyDirection, applyPoint, compose, fromAxes, invert, type Rigid } from '../../math/rigid.ts';
import type { Vec3 } from '../../math/vec.ts';
import type { UprightPieces } from '../../parts/upright/build.ts';
import type { Point2 } from '../simplePolygon.ts';
import { armBar, padFrame } from '../uprightPlan.ts';
import { bossLine } from './bossLine.ts';
import type { FlatPlate, PlateMark } from './flatPlate.ts';
import { regionsOf } from './loops.ts';
import { faceInWords, type PlateContext } from './plateMaker.ts';
import { sliceIn } from './slice.ts';

/** The steering arm: x along the bar from the pad to the boss. */
export function armPlate(
  entry: Entry<'upright'>,
  { arm, bore, bosses }: UprightPieces,
  { corner, length }: PlateContext,
): FlatPlate {
  const boss = bosses.steering;
  const { width, thickness } = entry.steeringArm;
  const { padFromBar, runMm } = armBar(boss, entry);
  const barFromPlate = (way: 1 | -1) => fromAxes([0, 0, 1], [0, way, 0], [-way, 0, 0], [0, 0, 0]);
  const vehicleFromBar = compose(padFrame(corner), padFromBar);
  const looksUp = (way: 1 | -1) => applyDirection(compose(vehicleFromBar, barFromPlate(way)), [0, 0, 1])[2];
  const padFromPlate = compose(padFromBar, barFromPlate(looksUp(1) >= 0 ? 1 : -1));
  const plateFromPad = invert(padFromPlate);
  const onPlate = (at: Vec3): Point2 => {
    const [u, v] = applyPoint(plateFromPad, at);
    return [u, v];
  };
  const regions = regionsOf(sliceIn(arm.subtract(bore), padFromPlate), []);
  const [{ outline, openings }] = regions;
  const vehicleFromPlate = compose(padFrame(corner), padFromPlate);
  const [x, , z] = applyDirection(padFromPlate, [1, 0, 0]);
  // From the middle of the pad's ring to its edge, along the bar.
  const inPadMm = Math.min(runMm, (entry.hubMount.diameter - entry.hubMount.bore) / 4 / Math.hypot(x, z));
  return {
    id: `${entry.id}.steeringArm`,
    name: `${entry.label ?? entry.id}: steering arm`,
    thicknessMm: thickness,
    quantity: 1,
    sideUp: faceInWords(vehicleFromPlate),
    outline,
    origin: "the middle of the bar at the pad's ring",
    openings: openings.map((loop) => ({ loop, use: 'opening' })),
    holes: [],
    marks: [
      bossLine(
        boss,
        entry.jointMounts.diameter / 2,
        onPlate,
        `boss, ${length(entry.jointMounts.diameter)} across`,
      ),
      ...[0, -entry.plateThickness].flatMap((y) =>
        padFaceMark(padFromPlate, y, inPadMm, width, y === 0 ? "pad's outboard face" : "pad's inboard face"),
      ),
    ],
    bends: [],
    notes: [
      `Bar of ${length(width)} × ${length(thickness)}. It starts in the middle of the pad's ring and ends in the middle of the tie rod's boss, ${length(runMm)} further.`,
      `The boss, ${length(entry.jointMounts.diameter)} across, has no hole in the solid. The file does not say how the arm meets pad and boss: trim both ends by hand.`,
      ...(regions.length > 1
        ? ['The pad or the boss cuts the bar into several pieces. Only the largest is drawn.']
        : []),
    ],
    vehicleFromPlate,
  };
}

/** Where a face of the pad crosses the middle plane of the bar, within the bar; none if it does not. */
function padFaceMark(
  padFromPlate: Rigid,
  y: number,
  runMm: number,
  widthMm: number,
  label: string,
): PlateMark[] {
  // y in the pad's frame is a + b u + c v over the bar's plane.
  const a = applyPoint(padFromPlate, [0, 0, 0])[1] - y;
  const [, b] = applyDirection(padFromPlate, [1, 0, 0]);
  const [, c] = applyDirection(padFromPlate, [0, 1, 0]);
  const half = widthMm / 2;
  const ends = [
    ...[0, runMm].map((u): Point2 => [u, -(a + b * u) / c]),
    ...[-half, half].map((v): Point2 => [-(a + c * v) / b, v]),
  ]
    .filter(([u, v]) => u >= 0 && u <= runMm && Math.abs(v) <= half)
    .sort(([u1], [u2]) => u2 - u1);
  // The label is at the end toward the pad, where the bar begins.
  return ends.length < 2 ? [] : [{ at: [ends[0], ends[ends.length - 1]], label }];
}
