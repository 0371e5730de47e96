import { type Body, prepareBody } from '../../clearance/body.ts';
import { measure } from '../../clearance/query.ts';
import { SurfaceSearch } from '../../clearance/surfaceSearch.ts';
import type { Corner } from '../../design/schema.ts';
import { identity } from '../../math/rigid.ts';
import type { FastenerBody } from '../../solids/fasteners/fastenerBodies.ts';
import type { Mesh, Solid, Zone } from '../../solids/solid.ts';
import { meshBeside } from '../../sweep/setUp.ts';
import { areBoxesApart } from './meshBoxes.ts';

/** A part in the way of a fastener or of its tool. */
export interface Block {
  /** Ids of the solid and of its part, and the label; if a neighbouring bolt is in the way, those of the set. */
  solidId: string;
  partId: string;
  label: string;
  /** 0 or less if they meet; positive but within the error if that is uncertain; NaN if unknown. */
  clearanceMm: number;
  errorMm: number;
}

/** The path or the tool of one fastener, and all parts in its way. */
export interface BlockedWay {
  body: FastenerBody;
  blocks: readonly Block[];
  /** Number of handle directions tried, of which this one has the fewest parts in its way; 1 if none were tried. */
  directions: number;
  /** Handle direction, degrees (see `handleDeg` of the bolts); undefined if no directions were tried. */
  handleDeg?: number;
  /**
   * Other handle directions that are blocked by other parts; a direction blocked by all parts of a listed one is left
   * out. Empty if no directions were tried.
   */
  others: readonly { handleDeg: number; blocks: readonly Block[] }[];
}

/** A clearance below this, less its error, blocks: above rounding, far below any measurement. */
const FREE_MM = 1e-3;

/** Tolerance of overlap depths, which are not used. */
const DEPTH_MM = 2;

/**
 * Finds the parts in the way of some paths and tools, given all seated fasteners. Unblocked paths and tools are
 * included in the result.
 */
export type FindBlocks = (moving: readonly FastenerBody[], seated: readonly FastenerBody[]) => BlockedWay[];

/**
 * Creates a finder of parts in the way of a path or tool at ride height, regardless of their step of assembly. Within
 * the seats of its own bolt, a body may touch the parts that the bolts hold. Parts that spin with the wheel count as
 * the body that they sweep, except beside wheel nuts, which spin with them. Solids are prepared once; `ready` reuses
 * those of another corner.
 */
export function blockFinder(
  corner: Corner,
  solids: readonly Solid[],
  ready: ReadyBodies = readyBodies(),
): FindBlocks {
  return (moving, seated) =>
    moving.map((body): BlockedWay => {
      const others = solids.filter(({ partIndex }) => corner.parts[partIndex].id !== body.boltsId);
      const byParts = others.flatMap((solid): Block[] => {
        const zones = body.zonesAgainst
          .filter(({ solidId }) => solidId === solid.id)
          .flatMap((seat) => seat.zones);
        const { mesh, chordErrorMm } = meshBeside(solid, body);
        if (areBoxesApart(body.mesh, mesh, FREE_MM + body.chordErrorMm + chordErrorMm)) return [];
        const found = blockingClearance(
          ready(body.mesh, body.chordErrorMm, zones),
          ready(mesh, chordErrorMm, zones),
        );
        const { id: solidId, label } = solid;
        return found === undefined
          ? []
          : [{ solidId, partId: corner.parts[solid.partIndex].id, label, ...found }];
      });
      const neighbours = seated.filter(
        ({ boltsId, index }) => boltsId === body.boltsId && index !== body.index,
      );
      const byNeighbours = neighbours.flatMap((other): Block[] => {
        const found = blockingClearance(
          ready(body.mesh, body.chordErrorMm, []),
          ready(other.mesh, other.chordErrorMm, []),
        );
        const { boltsId, label } = other;
        return found === undefined ? [] : [{ solidId: boltsId, partId: boltsId, label, ...found }];
      });
      return { body, blocks: [...byParts, ...byNeighbours], directions: 1, others: [] };
    });
}

function blockingClearance(a: Body, b: Body): Pick<Block, 'clearanceMm' | 'errorMm'> | undefined {
  const search = new SurfaceSearch(a.surface, b.surface);
  search.moveTo(identity());
  search.run(FREE_MM);
  // The overlap depth is not needed and takes far longer to compute.
  if (search.crossing) return { clearanceMm: 0, errorMm: a.chordErrorMm + b.chordErrorMm };
  const found = measure(a, b, identity(), { limitMm: FREE_MM, depthToleranceMm: DEPTH_MM });
  if (found.kind === 'beyond') return undefined;
  if (found.kind === 'unknown') return { clearanceMm: Number.NaN, errorMm: Number.NaN };
  return { clearanceMm: found.distanceMm, errorMm: found.errorMm };
}

/** Prepares bodies, each mesh once for the same zones. */
export type ReadyBodies = (mesh: Mesh, chordErrorMm: number, zones: readonly Zone[]) => Body;

export function readyBodies(): ReadyBodies {
  const known = new WeakMap<Mesh, Map<string, Body>>();
  return (mesh, chordErrorMm, zones) => {
    const ofMesh = known.get(mesh) ?? new Map<string, Body>();
    known.set(mesh, ofMesh);
    const key = JSON.stringify(zones);
    const body = ofMesh.get(key) ?? prepareBody(mesh, { chordErrorMm, zones, fastBuild: zones.length > 0 });
    ofMesh.set(key, body);
    return body;
  };
}
