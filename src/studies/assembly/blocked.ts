import { type Body, prepareBody } from '../../clearance/body.ts';
import { measure } from '../../clearance/query.ts';
import { SurfaceSearch } from '../../clearance/surfaceSearch.ts';
import type { Corner } from '../../design/schema.ts';
import { identity } from '../../math/rigid.ts';
import type { FastenerBody } from '../../solids/fastenerBodies.ts';
import type { Mesh, Solid, Zone } from '../../solids/solid.ts';
import { meshBeside } from '../../sweep/setUp.ts';
import { areBoxesApart } from './meshBoxes.ts';

/** What is in the way of a fastener or of its tool. */
export interface Block {
  /** Ids of the solid and of its entry, and what people call it; of the set itself where a neighbour is in the way. */
  solidId: string;
  partId: string;
  label: string;
  /** 0 or less where they meet; above 0 and no more than the error where that cannot be told. NaN where it is unknown. */
  clearanceMm: number;
  errorMm: number;
}

/** A way or a tool of one fastener, and all that is in its way. */
export interface BlockedWay {
  body: FastenerBody;
  blocks: readonly Block[];
  /** How many directions of a wrench's handle were tried, of which this has the least in its way; else 1. */
  directions: number;
  /** Where directions were tried, that of the handle here, degrees (see `handleDeg` of the bolts). */
  handleDeg?: number;
  /** Other directions, with other parts in their ways: none with all of those here or of another. Empty where none was tried. */
  others: readonly { handleDeg: number; blocks: readonly Block[] }[];
}

/** Nearer than this, errors taken off, counts as in the way: above rounding, far below what anyone measures. */
const FREE_MM = 1e-3;

/** Depths are not asked for: found no more closely than this. */
const DEPTH_MM = 2;

/** Finds what is in the way of some ways and tools, given all fasteners as fitted; those in whose way nothing is too. */
export type FindBlocks = (moving: readonly FastenerBody[], seated: readonly FastenerBody[]) => BlockedWay[];

/**
 * What is in the way of a way out or a tool at ride height, whichever step of assembly it belongs to. Within the seats of
 * its own bolt a body may touch what the bolts hold. What turns with the wheel is the body that it sweeps, but for the nuts
 * of the wheel, beside which it stands. Solids are made ready once, however often they are asked about; `ready`: those of another
 * corner too, where it has the same ones.
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
        const found = inTheWay(ready(body.mesh, body.chordErrorMm, zones), ready(mesh, chordErrorMm, zones));
        const { id: solidId, label } = solid;
        return found === undefined
          ? []
          : [{ solidId, partId: corner.parts[solid.partIndex].id, label, ...found }];
      });
      const neighbours = seated.filter(
        ({ boltsId, index }) => boltsId === body.boltsId && index !== body.index,
      );
      const byNeighbours = neighbours.flatMap((other): Block[] => {
        const found = inTheWay(
          ready(body.mesh, body.chordErrorMm, []),
          ready(other.mesh, other.chordErrorMm, []),
        );
        const { boltsId, label } = other;
        return found === undefined ? [] : [{ solidId: boltsId, partId: boltsId, label, ...found }];
      });
      return { body, blocks: [...byParts, ...byNeighbours], directions: 1, others: [] };
    });
}

function inTheWay(a: Body, b: Body): Pick<Block, 'clearanceMm' | 'errorMm'> | undefined {
  const search = new SurfaceSearch(a.surface, b.surface);
  search.moveTo(identity());
  search.run(FREE_MM);
  // How deep they are in each other is not asked for, and takes far longer to find.
  if (search.crossing) return { clearanceMm: 0, errorMm: a.chordErrorMm + b.chordErrorMm };
  const found = measure(a, b, identity(), { limitMm: FREE_MM, depthToleranceMm: DEPTH_MM });
  if (found.kind === 'beyond') return undefined;
  if (found.kind === 'unknown') return { clearanceMm: Number.NaN, errorMm: Number.NaN };
  return { clearanceMm: found.distanceMm, errorMm: found.errorMm };
}

/** Makes bodies ready, each mesh once for the same zones. */
export type ReadyBodies = (mesh: Mesh, chordErrorMm: number, zones: readonly Zone[]) => Body;

export function readyBodies(): ReadyBodies {
  const known = new WeakMap<Mesh, Map<string, Body>>();
  return (mesh, chordErrorMm, zones) => {
    const ofMesh = known.get(mesh) ?? new Map<string, Body>();
    known.set(mesh, ofMesh);
    const key = JSON.stringify(zones);
    const body = ofMesh.get(key) ?? prepareBody(mesh, { chordErrorMm, zones, brief: zones.length > 0 });
    ofMesh.set(key, body);
    return body;
  };
}
