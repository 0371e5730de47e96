import { type Side, shownPoint, shownSteer } from '../../design/side.ts';
import type { AuditedPair } from '../../studies/audit/audit.ts';
import { jsonHead } from '../jsonHead.ts';
import { rounded } from '../rounded.ts';
import type { AuditReport } from './auditText.ts';

const AUDIT_FORMAT = 'daylight.audit';
const AUDIT_VERSION = 1;

/**
 * The audit as JSON text: volumes in mm^3, lengths in mm, angles in degrees, places in vehicle axes (a right corner is
 * mirrored). `unexplained` is null if intended contact explains all but 1 mm^3 of the shared volume.
 */
export function auditJson(
  { corner, solids, audit }: AuditReport,
  designHash: string,
  version: string,
): string {
  const object = {
    ...jsonHead(AUDIT_FORMAT, AUDIT_VERSION, version, designHash, corner),
    poses: audit.poses,
    unreachablePoses: audit.unreachable,
    clockings: audit.clockings,
    pairs: audit.pairs.map((pair) => ({
      between: [solids[pair.a].id, solids[pair.b].id],
      treatment: pair.treatment,
      sharedMm3: rounded(pair.sharedMm3),
      explained: pair.explained.map(({ what, volumeMm3 }) => ({ what, volumeMm3: rounded(volumeMm3) })),
      enlargedByMm: rounded(pair.enlargedByMm),
      unexplained: unexplainedObject(pair, corner.side),
    })),
  };
  return `${JSON.stringify(object, null, 2)}\n`;
}

function unexplainedObject({ unexplained }: AuditedPair, side: Side) {
  if (unexplained === undefined) return null;
  const { at, volumeMm3, errorMm3, middle, extentMm, engine, hidden } = unexplained;
  return {
    hidden,
    engine: engine ?? null,
    at: at.kind === 'pose' ? { ...at, steer: shownSteer(side, at.steer) } : at,
    volumeMm3: rounded(volumeMm3),
    errorMm3: rounded(errorMm3),
    middle: shownPoint(side, middle).map(rounded),
    extentMm: extentMm.map(rounded),
  };
}
