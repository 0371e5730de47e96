import type { Corner, Entry } from '../../../../design/schema.ts';
import { compose, fromAxes, type Rigid } from '../../../../math/rigid.ts';
import { cos, sin } from '../../../../math/sine.ts';
import { endFrame } from '../../../../solids/fasteners/fastenerFrame.ts';
import {
  type FastenerEnd,
  type FastenerStack,
  fastenerStack,
} from '../../../../solids/fasteners/fastenerStack.ts';
import { endTool } from '../../../../solids/fasteners/fastenerTool.ts';
import { seatedPieces } from '../../../../solids/fasteners/roundFasteners.ts';
import { axialStack, vehicleFromWheelAxis } from '../../../../solids/wheelFrame.ts';
import { degToRad } from '../../../../units/angle.ts';
import {
  across,
  arc,
  bar,
  bothHalves,
  diameter,
  type Point,
  rectangle,
  type Sketch,
  type SketchDimension,
  turn,
  upward,
} from './sketch.ts';

/** Gap between a part and a dimension beside it, mm. */
const ASIDE = 4;

/**
 * The first bolt of a set, cut along its axis with the turned end up; if a wrench turns it, also a view along the axis.
 * Undefined if the corner lacks the parts that the bolts join.
 */
export function boltsSketch(bolts: Entry<'bolts'>, corner: Corner): Sketch | undefined {
  let stack: FastenerStack;
  try {
    stack = fastenerStack(corner, bolts);
  } catch {
    return undefined;
  }
  const { ends, places, washer } = stack;
  const [first] = ends;
  const turnedEnd = ends[bolts.toolOn === 'nut' ? ends.length - 1 : 0];
  const frameOf = (end: FastenerEnd): Rigid =>
    compose(vehicleFromWheelAxis(corner.suspension), endFrame(places[0], end, axialStack(corner).hubFaceY));
  // Frame of the turned end: z along the bolt, up in the sketch.
  const frame = frameOf(turnedEnd);
  const flip = turnedEnd === first ? 1 : -1;
  const grip = flip === 1 ? 0 : -stack.gripMm;
  const up = (mm: number) => flip * (mm - grip);
  const pieces = seatedPieces(stack);
  const tool = toolOf(bolts, turnedEnd);
  const given = (dimension: SketchDimension): SketchDimension[] =>
    bolts[dimension.field as keyof typeof bolts] === undefined ? [] : [dimension];
  const widest = Math.max(...pieces.map(({ radiusMm }) => radiusMm));
  const ofEnd = (end: FastenerEnd): SketchDimension[] => {
    const [low, high] = [end.washerMm, end.washerMm + end.piece.heightMm];
    const at = (mm: number) => (end === turnedEnd ? mm : -stack.gripMm - mm);
    return [
      ...given(across(`${end.kind}Across`, -end.piece.acrossMm / 2, end.piece.acrossMm / 2, at(high))),
      ...given(upward(`${end.kind}Height`, at(low), at(high), widest + ASIDE)),
    ];
  };
  const tip = stack.lengthMm === undefined ? 0 : first.washerMm - stack.lengthMm;
  return {
    title: `Cut along the first bolt, with the ${turnedEnd.kind} up${tool.beside.length > 0 ? ', and along its axis' : ''}`,
    views: [
      { at: [0, 0], vehicleFromView: tool.sectionFrom(frame) },
      ...(tool.beside.length > 0 ? [{ at: tool.at, vehicleFromView: tool.alongFrom(frame) }] : []),
    ],
    outlines: [
      ...bothHalves(pieces.map(({ fromMm, toMm, radiusMm }) => rectangle(0, radiusMm, up(fromMm), up(toMm)))),
      ...tool.outlines,
      ...tool.beside,
    ],
    axes: [
      [
        [0, up(pieces[0].fromMm) - flip * ASIDE],
        [0, up(pieces[pieces.length - 1].toMm) + flip * ASIDE],
      ],
    ],
    dimensions: [
      ...given(upward('length', up(tip), up(first.washerMm), -widest - ASIDE)),
      ...given(diameter('counterboreDiameter', bolts.counterboreDiameter ?? 0, up(0))),
      ...given(upward('counterboreDepth', up(0), up(bolts.counterboreDepth ?? 0), widest + 3 * ASIDE)),
      ...ends.flatMap(ofEnd),
      ...(washer === undefined
        ? []
        : [
            ...given(diameter('washerDiameter', washer.acrossMm, 0)),
            ...given(upward('washerThickness', 0, washer.heightMm, -washer.acrossMm / 2)),
          ]),
      ...tool.dimensions.flatMap(given),
    ],
  };
}

interface ToolPiece {
  outlines: Point[][];
  /** In the view along the bolt, about `at`; empty for a socket. */
  beside: Point[][];
  at: Point;
  dimensions: SketchDimension[];
  sectionFrom(frame: Rigid): Rigid;
  alongFrom(frame: Rigid): Rigid;
}

function toolOf(bolts: Entry<'bolts'>, end: FastenerEnd): ToolPiece {
  const tool = endTool(bolts, end);
  const seat = end.washerMm;
  if (tool.kind === 'socket') {
    const foot = end.piece.hex ? seat : seat + end.piece.heightMm;
    const top = foot + tool.lengthMm;
    return {
      outlines: [
        rectangle(-tool.diameterMm / 2, tool.diameterMm / 2, foot, top),
        rectangle(-tool.driveDiameterMm / 2, tool.driveDiameterMm / 2, top, top + tool.driveLengthMm),
      ],
      beside: [],
      at: [0, 0],
      dimensions: [
        diameter('toolDiameter', tool.diameterMm, top),
        upward('toolLength', foot, top, tool.diameterMm / 2 + ASIDE),
        diameter('driveDiameter', tool.driveDiameterMm, top + tool.driveLengthMm),
        upward('driveLength', top, top + tool.driveLengthMm, tool.diameterMm / 2 + ASIDE),
      ],
      sectionFrom: (frame) => sectionFrame(frame, 0),
      alongFrom: (frame) => frame,
    };
  }
  // If the end points outboard, larger clocking is a negative rotation in its frame.
  const sense = -end.away;
  const mid = sense * degToRad(tool.handleDeg);
  const half = degToRad(tool.swingDeg) / 2;
  const head = tool.diameterMm / 2;
  const at: Point = [tool.lengthMm + head + 10 * ASIDE, 0];
  const to = (angle: number, radius: number): Point => [
    at[0] - radius * sin(angle),
    at[1] + radius * cos(angle),
  ];
  const handle = (angle: number) => bar(at, to(angle, tool.lengthMm), tool.handleWidthMm);
  const mark = 0.6 * tool.lengthMm;
  const wide = tool.handleWidthMm / 2;
  const [c, s] = [cos(mid), sin(mid)];
  return {
    outlines: [rectangle(-head, tool.lengthMm, seat, seat + tool.thicknessMm)],
    beside: [arc(at, head), handle(mid - half), handle(mid + half)],
    at,
    dimensions: [
      diameter('toolDiameter', tool.diameterMm, seat + tool.thicknessMm + ASIDE),
      {
        field: 'toolLength',
        from: [0, seat + tool.thicknessMm / 2],
        to: [tool.lengthMm, seat + tool.thicknessMm / 2],
      },
      upward('toolThickness', seat, seat + tool.thicknessMm, head + ASIDE),
      {
        field: 'handleWidth',
        view: 1,
        from: [to(mid, mark)[0] - wide * c, to(mid, mark)[1] - wide * s],
        to: [to(mid, mark)[0] + wide * c, to(mid, mark)[1] + wide * s],
      },
      { ...turn('handleDeg', at, 0.8 * tool.lengthMm, [0, -mid]), view: 1 },
      { ...turn('swingDeg', at, tool.lengthMm, [-mid - half, -mid + half]), view: 1 },
    ],
    sectionFrom: (frame) => sectionFrame(frame, mid),
    // Outward from the wheel axis is up in the sketch; x is to the right, viewed from the end.
    alongFrom: (frame) => compose(frame, fromAxes([0, -1, 0], [1, 0, 0], [0, 0, 1], [0, 0, 0])),
  };
}

/** Frame of a cut through the bolt's axis, up in the sketch, with x at an angle from outward, rad. */
function sectionFrame(frame: Rigid, angle: number): Rigid {
  const right = [cos(angle), sin(angle), 0] as const;
  const toward = [sin(angle), -cos(angle), 0] as const;
  return compose(frame, fromAxes(right, [0, 0, 1], toward, [0, 0, 0]));
}
