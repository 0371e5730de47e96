import { assemblyStep } from '../../design/assemblyStep.ts';
import type { BoltTool } from '../../design/fasteners/boltTool.ts';
import type { Carrier, Corner, Entry } from '../../design/schema.ts';
import { cos, sin } from '../../math/sine.ts';
import { degToRad } from '../../units/angle.ts';
import type { BuildContext } from '../build.ts';
import { DimensionError } from '../dimensionError.ts';
import { loadModeller, type Manifold, matrix16, rod } from '../modeller.ts';
import { placed, worstChordMm } from '../place.ts';
import type { Mesh, Seat } from '../solid.ts';
import { axialStack, entries, vehicleFromWheelAxis } from '../wheelFrame.ts';
import { endFrame } from './fastenerFrame.ts';
import { seatsOf, seatsOfOne } from './fastenerSeats.ts';
import { type FastenerEnd, type FastenerStack, fastenerStack } from './fastenerStack.ts';
import { endTool, turnedEnds } from './fastenerTool.ts';
import { boltsCarrier, type RoundPiece, roundFasteners, seatedPieces } from './roundFasteners.ts';

export type FastenerStage = 'seated' | 'wayOut' | 'tool';

/** Identifies a body of a corner's fasteners. */
export interface FastenerName {
  /** Id of the set of bolts, and index in the set: 0 is the hole at the clocking itself. */
  boltsId: string;
  index: number;
  stage: FastenerStage;
  /** The end that moves or is turned; for a seated fastener, its first end. */
  end: FastenerEnd['kind'];
}

/** The space of one fastener: fitted, on its way out, or with the tool that turns one of its ends. */
export interface FastenerBody extends FastenerName {
  joins: Entry<'bolts'>['joins'];
  carrier: Carrier;
  /** Step of assembly. */
  fitted: number;
  label: string;
  /** Closed and outward, in ride-height vehicle coordinates; every point of the true body is within the error of it. */
  mesh: Mesh;
  chordErrorMm: number;
  /** Zones of intended contact with the solids that the bolts hold. Other solids are checked without zones. */
  zonesAgainst: readonly Seat[];
}

/** Depth of a socket head's hexagon as a fraction of its height: at least half (ISO 4762). */
const KEY_DEPTH = 0.5;

/** Margin around the foot of a tool that stands on the clamped parts, mm. Common practice, no source. */
const TOOL_EDGE_MM = 1;

/** Thickness of a wrench's handle as a fraction of its head's; it is in the middle of the head. From memory. */
const HANDLE_THICKNESS = 0.5;

/**
 * The bodies of every fastener of a corner, by set in the file's order, then by hole, seated first.
 *
 * - seated: shank, head, nut and washers, as bodies of revolution about the bolt's axis.
 * - wayOut, one for each end: a head from its seat, with its shank, along the axis until the tip has left the clamped parts;
 *   a nut from its seat until it is off the thread. Washers stay in place.
 * - tool, one for each turned end: a socket with its drive, extended by the lift needed to put it on; or a wrench's head with
 *   the sweep of its handle, for a box wrench extended by the height of the piece that it goes over.
 *
 * `include` selects the bodies to make; by default all. Throws an Error that names the set of bolts if a part is missing or
 * dimensions contradict.
 */
export async function fastenerBodies(
  corner: Corner,
  chordToleranceMm: number,
  include: (body: FastenerName) => boolean = () => true,
): Promise<FastenerBody[]> {
  if (!(chordToleranceMm > 0))
    throw new RangeError(`the chord tolerance must be more than 0 mm, not ${chordToleranceMm}`);
  const modeller = await loadModeller();
  const context = { corner, modeller, chordToleranceMm };
  // No await between here and release(), which also frees the objects of any other call.
  try {
    return entries(corner, 'bolts').flatMap((bolts) => bodiesOf(bolts, context, include));
  } finally {
    modeller.release();
  }
}

function bodiesOf(
  bolts: Entry<'bolts'>,
  context: BuildContext,
  include: (body: FastenerName) => boolean,
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
      if (!include({ boltsId: bolts.id, index, stage, end: end.kind })) return [];
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

/** Height that a socket or box wrench is lifted over, mm: that of the head, or of the nut with any thread beyond it. */
const liftMm = ({ kind, piece, wayMm }: FastenerEnd): number =>
  kind === 'nut' ? Math.max(piece.heightMm, wayMm) : piece.heightMm;

function socketPieces(
  end: FastenerEnd,
  { diameterMm, lengthMm, driveDiameterMm, driveLengthMm }: Extract<BoltTool, { kind: 'socket' }>,
): RoundPiece[] {
  const { washerMm, piece } = end;
  const foot = piece.hex ? washerMm : washerMm + piece.heightMm;
  const raised = piece.hex ? liftMm(end) : KEY_DEPTH * piece.heightMm;
  const top = foot + lengthMm + raised;
  return [
    { fromMm: foot, toMm: top, radiusMm: diameterMm / 2 },
    { fromMm: top, toMm: top + driveLengthMm, radiusMm: driveDiameterMm / 2 },
  ];
}

/** A wrench on one end of one fastener, in the wheel-axis frame. */
function wrench(
  { places }: FastenerStack,
  index: number,
  end: FastenerEnd,
  tool: Exclude<BoltTool, { kind: 'socket' }>,
  { corner, modeller, chordToleranceMm }: BuildContext,
): { solid: Manifold; errorMm: number } {
  const { washerMm, away } = end;
  const { diameterMm, thicknessMm, lengthMm, handleWidthMm } = tool;
  const raised = tool.kind === 'boxWrench' ? liftMm(end) : 0;
  const head = rod(
    modeller,
    [0, 0, washerMm],
    [0, 0, washerMm + thicknessMm + raised],
    diameterMm / 2,
    chordToleranceMm,
  );
  const thick = HANDLE_THICKNESS * thicknessMm;
  // If the end points outboard, larger clocking is a negative angle in the end's frame.
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
 * Outline of the sweep of a bar from a centre, `length` by `width`, through `swingRad` about `middleRad`, out to the circle
 * of its corners. Its inner end is not exact; it is inside the wrench's head.
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
