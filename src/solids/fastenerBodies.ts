import { assemblyStep } from '../design/assemblyStep.ts';
import type { BoltTool } from '../design/boltTool.ts';
import type { Carrier, Corner, Entry } from '../design/schema.ts';
import { cos, sin } from '../math/sine.ts';
import { degToRad } from '../units/angle.ts';
import { boltsCarrier, type RoundPiece, roundFasteners, seatedPieces } from './bolts.ts';
import type { BuildContext } from './build.ts';
import { DimensionError } from './dimensionError.ts';
import { endFrame } from './fastenerFrame.ts';
import { seatsOf, seatsOfOne } from './fastenerSeats.ts';
import { type FastenerEnd, type FastenerStack, fastenerStack } from './fastenerStack.ts';
import { endTool, turnedEnds } from './fastenerTool.ts';
import { loadModeller, type Manifold, matrix16, rod } from './modeller.ts';
import { placed, worstChordMm } from './place.ts';
import type { Mesh, Seat } from './solid.ts';
import { axialStack, entries, vehicleFromWheelAxis } from './wheelFrame.ts';

export type FastenerStage = 'seated' | 'wayOut' | 'tool';

/** Tells the bodies of a corner's fasteners apart. */
export interface FastenerName {
  /** Id of the set of bolts, and which of the set: 0 is the hole at the clocking itself. */
  boltsId: string;
  index: number;
  stage: FastenerStage;
  /** Which end moves or is turned; of a seated fastener its first. */
  end: FastenerEnd['kind'];
}

/** The room that one fastener takes: as it is fitted, on its way out, or with the tool that turns one of its ends. */
export interface FastenerBody extends FastenerName {
  joins: Entry<'bolts'>['joins'];
  carrier: Carrier;
  /** Step of assembly. */
  fitted: number;
  label: string;
  /** Closed, outward, ride-height vehicle coordinates; no point of the true body is further from it than the error. */
  mesh: Mesh;
  chordErrorMm: number;
  /** Where contact with what the bolts hold is intended, by the id of that solid; all else is checked wholly. */
  zonesAgainst: readonly Seat[];
}

/** The depth of a socket head's hexagon, of its height: at least half (ISO 4762). */
const KEY_DEPTH = 0.5;

/** About the foot of a tool that stands on what is clamped. Common practice, no source. */
const TOOL_EDGE_MM = 1;

/** A wrench's handle is half as thick as its head and stands in the middle of it. From memory. */
const HANDLE_THICKNESS = 0.5;

/**
 * The bodies of every fastener of a corner, set by set in the file's order, hole by hole, seated first.
 *
 * - seated: shank, head, nut and washers, turned about the bolt's axis.
 * - wayOut, one for each end: a head from its seat, with its shank, along the axis until the tip has left the clamped parts;
 *   a nut from its seat until it is off the thread. Washers are left to come after.
 * - tool, one for each end that is turned: a socket with its drive, raised besides by as much as it takes to put it on; or a
 *   wrench's head with its handle all through its swing, a box raised by the height of what it goes over.
 *
 * Only those that are `wanted` are made; all unless told. Throws an Error that names the part where something is lacking or
 * dimensions contradict.
 */
export async function fastenerBodies(
  corner: Corner,
  chordToleranceMm: number,
  wanted: (body: FastenerName) => boolean = () => true,
): Promise<FastenerBody[]> {
  if (!(chordToleranceMm > 0))
    throw new RangeError(`the chord tolerance must be more than 0 mm, not ${chordToleranceMm}`);
  const modeller = await loadModeller();
  const context = { corner, modeller, chordToleranceMm };
  // No wait from here to the release: it frees what any other call has in the modeller too.
  try {
    return entries(corner, 'bolts').flatMap((bolts) => bodiesOf(bolts, context, wanted));
  } finally {
    modeller.release();
  }
}

function bodiesOf(
  bolts: Entry<'bolts'>,
  context: BuildContext,
  wanted: (body: FastenerName) => boolean,
): FastenerBody[] {
  const stack = stackOf(bolts, context);
  const seats = seatsOf(stack, bolts, context);
  const common = {
    boltsId: bolts.id,
    joins: bolts.joins,
    carrier: boltsCarrier(bolts),
    fitted: assemblyStep(context.corner, bolts),
  } as const;
  const name = bolts.label ?? bolts.id;
  const vehicleFromWheel = vehicleFromWheelAxis(context.corner.suspension);
  return stack.places.flatMap((place, index) => {
    const body = (
      stage: FastenerStage,
      end: FastenerEnd,
      words: string,
      make: () => { solid: Manifold; errorMm: number },
      mayTouch = seats,
    ): FastenerBody[] => {
      if (!wanted({ boltsId: bolts.id, index, stage, end: end.kind })) return [];
      const { solid, errorMm } = make();
      const { mesh, chordErrorMm } = placed(solid, vehicleFromWheel, errorMm);
      const label = `${name} ${index + 1}, ${words}`;
      const zonesAgainst = seatsOfOne(mayTouch, index);
      return [{ ...common, index, stage, end: end.kind, label, mesh, chordErrorMm, zonesAgainst }];
    };
    const round = (end: FastenerEnd, pieces: readonly RoundPiece[]) => () =>
      roundFasteners([place], end, pieces, context);
    return [
      ...body('seated', stack.ends[0], 'fitted', round(stack.ends[0], seatedPieces(stack))),
      ...stack.ends.flatMap((end) =>
        body('wayOut', end, `${end.kind} on its way out`, round(end, wayOutPieces(stack, end))),
      ),
      ...turnedEnds(bolts, stack).flatMap((end) => {
        const tool = endTool(bolts, end);
        const make =
          tool.kind === 'socket'
            ? round(end, socketPieces(end, tool))
            : () => wrench(stack, index, end, tool, context);
        const bearing = seatsOf(stack, bolts, context, tool.diameterMm / 2 + TOOL_EDGE_MM);
        return body('tool', end, `${TOOL_WORDS[tool.kind]} on its ${end.kind}`, make, bearing);
      }),
    ];
  });
}

const TOOL_WORDS = { socket: 'socket', boxWrench: 'box wrench', openWrench: 'open wrench' } as const;

function stackOf(bolts: Entry<'bolts'>, { corner }: BuildContext): FastenerStack {
  try {
    return fastenerStack(corner, bolts);
  } catch (error) {
    if (error instanceof DimensionError) throw new Error(`${bolts.id}: ${error.inUnit(corner.unit)}`);
    if (error instanceof Error) throw new Error(`${bolts.id}: ${error.message}`);
    throw error;
  }
}

function wayOutPieces({ washer, diameterMm, reachMm }: FastenerStack, end: FastenerEnd): RoundPiece[] {
  const { washerMm, piece, wayMm, kind } = end;
  const top = washerMm + piece.heightMm + wayMm;
  const pieces = [{ fromMm: washerMm, toMm: top, radiusMm: piece.roundMm / 2 }];
  if (washer !== undefined) pieces.unshift({ fromMm: 0, toMm: washerMm, radiusMm: washer.acrossMm / 2 });
  if (kind === 'head' && reachMm !== undefined)
    pieces.unshift({ fromMm: -reachMm, toMm: 0, radiusMm: diameterMm / 2 });
  return pieces;
}

/** Height of what a socket or a box goes over as it is put on: of a nut out to the end of the thread, if that stands out of it. */
const goesOverMm = ({ kind, piece, wayMm }: FastenerEnd): number =>
  kind === 'nut' ? Math.max(piece.heightMm, wayMm) : piece.heightMm;

function socketPieces(
  end: FastenerEnd,
  { diameterMm, lengthMm, driveDiameterMm, driveLengthMm }: Extract<BoltTool, { kind: 'socket' }>,
): RoundPiece[] {
  const { washerMm, piece } = end;
  const foot = piece.hex ? washerMm : washerMm + piece.heightMm;
  const raised = piece.hex ? goesOverMm(end) : KEY_DEPTH * piece.heightMm;
  const top = foot + lengthMm + raised;
  return [
    { fromMm: foot, toMm: top, radiusMm: diameterMm / 2 },
    { fromMm: top, toMm: top + driveLengthMm, radiusMm: driveDiameterMm / 2 },
  ];
}

/** A wrench about one end of one fastener, in the wheel-axis frame. */
function wrench(
  { places }: FastenerStack,
  index: number,
  end: FastenerEnd,
  tool: Exclude<BoltTool, { kind: 'socket' }>,
  { corner, modeller, chordToleranceMm }: BuildContext,
): { solid: Manifold; errorMm: number } {
  const { washerMm, away } = end;
  const { diameterMm, thicknessMm, lengthMm, handleWidthMm } = tool;
  const raised = tool.kind === 'boxWrench' ? goesOverMm(end) : 0;
  const head = rod(
    modeller,
    [0, 0, washerMm],
    [0, 0, washerMm + thicknessMm + raised],
    diameterMm / 2,
    chordToleranceMm,
  );
  const thick = HANDLE_THICKNESS * thicknessMm;
  // Larger clocking runs against the turn of the end's frame where the end points outboard.
  const middle = -away * degToRad(tool.handleDeg);
  const outline = sweptHandle(lengthMm, handleWidthMm, degToRad(tool.swingDeg), middle, chordToleranceMm);
  const handle = new modeller.CrossSection(outline, 'NonZero')
    .extrude(thick + raised)
    .translate([0, 0, washerMm + (thicknessMm - thick) / 2]);
  const { hubFaceY } = axialStack(corner);
  const wheelFromEnd = matrix16(endFrame(places[index], end, hubFaceY));
  return {
    solid: head.add(handle).transform(wheelFromEnd),
    errorMm: Math.max(worstChordMm([diameterMm / 2], chordToleranceMm), chordToleranceMm),
  };
}

/**
 * What a bar of a width and a length from a centre covers as it turns through `swingRad` about `middleRad`, but for its
 * inner end, which lies in the wrench's head: out to the circle of its corners.
 */
function sweptHandle(
  length: number,
  width: number,
  swingRad: number,
  middleRad: number,
  chordToleranceMm: number,
): [number, number][] {
  const reach = Math.hypot(length, width / 2);
  const corner = Math.atan2(width / 2, length);
  const [first, last] = [middleRad - swingRad / 2, middleRad + swingRad / 2];
  const span = swingRad + 2 * corner;
  const step = 2 * Math.acos(Math.max(0, 1 - chordToleranceMm / reach));
  const steps = Math.max(2, Math.ceil(span / step));
  const arc = Array.from({ length: steps + 1 }, (_, k): [number, number] => {
    const angle = first - corner + (span * k) / steps;
    return [reach * cos(angle), reach * sin(angle)];
  });
  const side = (angle: number, away: number): [number, number] => [
    (-away * width * sin(angle)) / 2,
    (away * width * cos(angle)) / 2,
  ];
  return [side(first, -1), ...arc, side(last, 1)];
}
