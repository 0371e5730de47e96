import type { TurnedPiece } from './boltDimensions.ts';
import type { Entry } from './schema.ts';

/** What turns a head or a nut, mm and degrees. */
export type BoltTool =
  | {
      kind: 'socket';
      diameterMm: number;
      /** Over all of the socket; its drive follows it, away from the bolt. */
      lengthMm: number;
      driveDiameterMm: number;
      driveLengthMm: number;
    }
  | {
      kind: 'boxWrench' | 'openWrench';
      /** Across the wrench's head. */
      diameterMm: number;
      /** Of the wrench's head along the bolt. */
      thicknessMm: number;
      /** From the bolt to the end of the handle. */
      lengthMm: number;
      handleWidthMm: number;
      /** Middle of the swing, from straight outward from the wheel axis, positive toward larger clocking. */
      handleDeg: number;
      swingDeg: number;
    };

/** Where the sizes come from that a set of bolts does not give for its tool. */
export const TOOL_ORIGINS: Readonly<Record<Entry<'bolts'>['tool'], string>> = {
  socket:
    'hand sockets on a 1/2 in drive as wide and long as they are made, deep ones over a long thread, with its shortest extension, from memory; impact sockets are wider',
  boxWrench:
    'head: no more across and no thicker for its opening than US federal specification A-A-1346A allows; handle: from memory; swing: 30 degrees of a twelve-point box',
  openWrench:
    'head: no more across than ISO 3318 and no thicker than ISO 7738 allows, from memory, as the handle is; swing: 30 degrees, turned over each time, with a head set 15 degrees askew',
};

/** Hand sockets of a 1/2 in drive are up to this wide at the drive, however small their opening. From memory. */
const LEAST_SOCKET_MM = 24;
/** Nor wider: those for 17, 19, 21, 24 and 30 mm are up to 24, 27, 30, 34 and 42 mm across. From memory. */
const widestSocketMm = (acrossMm: number): number => Math.max(LEAST_SOCKET_MM, 1.4 * acrossMm + 1);
/** Widest and thickest head of an open wrench: ISO 3318 and ISO 7738, from memory. */
const widestOpenMm = (acrossMm: number): number => 2.1 * acrossMm + 7;
const thickestOpenMm = (acrossMm: number): number => 0.45 * acrossMm + 3;
/** Those for 19, 24, 30 and 36 mm are up to 40, 43, 50 and 56 mm long, keys for socket heads up to 60. From memory. */
const longestSocketMm = (acrossMm: number): number => Math.max(40, 1.3 * acrossMm + 12);
const LONGEST_KEY_MM = 60;
/** What of a socket's length its drive takes, so that no thread can stand in it. From memory. */
export const DRIVE_DEPTH_MM = 17;
/** Of the shortest extension of a 1/2 in drive. From memory. */
const DRIVE_MM = 22;
const DRIVE_LENGTH_MM = 75;
/** A twelve-point box finds its next grip after 30 degrees, and so does an open wrench set askew that is turned over. */
const SWING_DEG = 30;

/**
 * The tool for a head or nut, in the dimensions that the bolts' entry gives; across and along the bolt the rest are the most
 * that such a tool is made with, so that what is free of it is free of all of them. `threadMm`: how far a thread stands out
 * from under the nut, which a socket takes up.
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
