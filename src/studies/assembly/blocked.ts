import { type Body, prepareBody } from '../../clearance/body.ts';
import { measure } from '../../clearance/query.ts';
import type { Corner } from '../../design/schema.ts';
import { identity } from '../../math/rigid.ts';
import type { FastenerBody } from '../../solids/fastenerBodies.ts';
import type { Mesh, Solid, Zone } from '../../solids/solid.ts';
import { meshBeside } from '../../sweep/setUp.ts';

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
}

/** Nearer than this, errors taken off, counts as in the way: above rounding, far below what anyone measures. */
const FREE_MM = 1e-3;

/** Depths are not asked for: found no more closely than this. */
const DEPTH_MM = 2;

/**
 * Every way out and every tool that something is in the way of at ride height, with all that is, whichever step of assembly
 * that belongs to. Within the seats of its own bolt a body may touch what the bolts hold. What turns with the wheel is the
 * body that it sweeps, but for the nuts of the wheel, beside which it stands.
 */
export function blockedWays(
  corner: Corner,
  solids: readonly Solid[],
  bodies: readonly FastenerBody[],
): BlockedWay[] {
  const ready = readyBodies();
  const seated = bodies.filter(({ stage }) => stage === 'seated');
  return bodies
    .filter(({ stage }) => stage !== 'seated')
    .map((body): BlockedWay => {
      const others = solids.filter(({ partIndex }) => corner.parts[partIndex].id !== body.boltsId);
      const byParts = others.flatMap((solid): Block[] => {
        const zones = body.zonesAgainst
          .filter(({ solidId }) => solidId === solid.id)
          .flatMap((seat) => seat.zones);
        const { mesh, chordErrorMm } = meshBeside(solid, body);
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
      return { body, blocks: [...byParts, ...byNeighbours] };
    })
    .filter(({ blocks }) => blocks.length > 0);
}

function inTheWay(a: Body, b: Body): Pick<Block, 'clearanceMm' | 'errorMm'> | undefined {
  const found = measure(a, b, identity(), { limitMm: FREE_MM, depthToleranceMm: DEPTH_MM });
  if (found.kind === 'beyond') return undefined;
  if (found.kind === 'unknown') return { clearanceMm: Number.NaN, errorMm: Number.NaN };
  return { clearanceMm: found.distanceMm, errorMm: found.errorMm };
}

/** Makes bodies ready, each mesh once for the same zones. */
function readyBodies(): (mesh: Mesh, chordErrorMm: number, zones: readonly Zone[]) => Body {
  const known = new Map<Mesh, Map<string, Body>>();
  return (mesh, chordErrorMm, zones) => {
    const ofMesh = known.get(mesh) ?? new Map<string, Body>();
    known.set(mesh, ofMesh);
    const key = JSON.stringify(zones);
    const body = ofMesh.get(key) ?? prepareBody(mesh, { chordErrorMm, zones });
    ofMesh.set(key, body);
    return body;
  };
}
