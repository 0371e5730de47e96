import type { Entry } from '../schema.ts';
import type { TurnedPiece } from './boltDimensions.ts';

/** Tool that turns a head or a nut, mm and degrees. */
export type BoltTool =
  | {
      kind: 'socket';
      diameterMm: number;
      /** Length of the whole socket; the drive continues from it, away from the bolt. */
      lengthMm: number;
      driveDiameterMm: number;
      driveLengthMm: number;
    }
  | {
      kind: 'boxWrench' | 'openWrench';
      /** Width of the wrench's head. */
      diameterMm: number;
      /** Thickness of the wrench's head along the bolt. */
      thicknessMm: number;
      /** Distance from the bolt to the end of the handle. */
      lengthMm: number;
      handleWidthMm: number;
      /** Direction of the middle of the swing: 0 straight away from the wheel axis, positive toward larger clocking. */
      handleDeg: number;
      swingDeg: number;
    };

/** Sources of the tool dimensions that a set of bolts leaves out. */
export const TOOL_ORIGINS: Readonly<Record<Entry<'bolts'>['tool'], string>> = {
  socket:
    'widest and longest hand sockets on a 1/2 in drive (deep ones over a long thread) with its shortest extension, from memory; impact sockets are wider',
  boxWrench:
    'head: greatest width and thickness for its opening in US federal specification A-A-1346A; handle: from memory; swing: 30 degrees of a twelve-point box',
  openWrench:
    'head: greatest width in ISO 3318 and thickness in ISO 7738, from memory, as is the handle; swing: 30 degrees, turned over each time, with a head set at 15 degrees',
};

/** Hand sockets of a 1/2 in drive are up to this wide at the drive, however small their opening. From memory. */
const LEAST_SOCKET_MM = 24;
/** Hand sockets for 17, 19, 21, 24 and 30 mm are up to 24, 27, 30, 34 and 42 mm wide. From memory. */
const widestSocketMm = (acrossMm: number): number => Math.max(LEAST_SOCKET_MM, 1.4 * acrossMm + 1);
/** Greatest width and thickness of an open wrench's head: ISO 3318 and ISO 7738, from memory. */
const widestOpenMm = (acrossMm: number): number => 2.1 * acrossMm + 7;
const thickestOpenMm = (acrossMm: number): number => 0.45 * acrossMm + 3;
/** Hand sockets for 19, 24, 30 and 36 mm are up to 40, 43, 50 and 56 mm long, keys for socket heads up to 60. From memory. */
const longestSocketMm = (acrossMm: number): number => Math.max(40, 1.3 * acrossMm + 12);
const LONGEST_KEY_MM = 60;
/** Length of a socket that its drive takes up, where no thread can be. From memory. */
export const DRIVE_DEPTH_MM = 17;
/** Diameter and length of the shortest extension of a 1/2 in drive. From memory. */
const DRIVE_MM = 22;
const DRIVE_LENGTH_MM = 75;
/** A twelve-point box takes its next grip after 30 degrees, as does an open wrench with an angled head that is turned over. */
const SWING_DEG = 30;

/**
 * The tool for a head or nut, with the dimensions in the bolts' entry. Dimensions left out, across and along the bolt, are
 * the largest that such tools have, so that a part which clears this tool clears all of them. `threadMm`: length of thread
 * beyond the nut's seat, which a socket must take in.
 */
export function boltTool(
  bolts: Entry<'bolts'>,
  { hex, acrossMm, roundMm }: TurnedPiece,
  threadMm = 0,
): BoltTool {
  const { tool, toolDiameter, toolLength } = bolts;
  if (tool === 'socket') {
    // A key for a socket head is no wider than the drive that holds it.
    const usual = hex ? widestSocketMm(acrossMm) : LEAST_SOCKET_MM;
    const usualLength = hex ? Math.max(longestSocketMm(acrossMm), threadMm + DRIVE_DEPTH_MM) : LONGEST_KEY_MM;
    return {
      kind: tool,
      diameterMm: toolDiameter ?? usual,
      lengthMm: toolLength ?? usualLength,
      driveDiameterMm: bolts.driveDiameter ?? DRIVE_MM,
      driveLengthMm: bolts.driveLength ?? DRIVE_LENGTH_MM,
    };
  }
  const box = tool === 'boxWrench';
  return {
    kind: tool,
    diameterMm: toolDiameter ?? (box ? Math.max(1.6 * acrossMm, roundMm + 4) : widestOpenMm(acrossMm)),
    thicknessMm: bolts.toolThickness ?? (box ? 0.86 * acrossMm : thickestOpenMm(acrossMm)),
    lengthMm: toolLength ?? 12.5 * acrossMm,
    handleWidthMm: bolts.handleWidth ?? 0.9 * acrossMm,
    handleDeg: bolts.handleDeg ?? 0,
    swingDeg: bolts.swingDeg ?? SWING_DEG,
  };
}
