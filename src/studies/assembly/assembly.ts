import { assemblyStep } from '../../design/assemblyStep.ts';
import type { Corner, PartEntry } from '../../design/schema.ts';
import { buildSolids } from '../../solids/catalogue.ts';
import { fastenerBodies } from '../../solids/fastenerBodies.ts';
import { type BlockedWay, blockFinder } from './blocked.ts';
import { withFreeHandles } from './freeHandle.ts';
import { type AssemblyOrder, type Fitted, orderOf, type Precedence } from './order.ts';

export interface AssemblyStudy {
  /** Every part and set of bolts with the step in which it is put on. A tyre goes with its wheel. */
  steps: readonly Fitted[];
  /** Fasteners that cannot be put in, taken out or turned at their step, each with what is there already in its way. */
  unreachable: readonly BlockedWay[];
  /** An order in which every fastener can be reached, or the ring of reasons for which there is none. */
  order: AssemblyOrder;
}

export interface AssemblyOptions {
  chordToleranceMm?: number;
  /** Steps by the ids of parts or bolts, in place of those of the file and the usual ones. */
  steps?: Readonly<Record<string, number>>;
}

/**
 * Which fasteners of a corner can be reached in the order in which it is put together, and in which order all could. The
 * corner stands at ride height with the wheel straight ahead: what moves with steering or travel may well be moved out of
 * the way, which is not looked into, nor is whether parts themselves can be brought to their place. A wrench whose direction
 * is not given comes from where the least is in its way. Throws DesignProblems for a solid that cannot be built, and an
 * Error that names the set for bolts that cannot be.
 */
export async function studyAssembly(
  corner: Corner,
  { chordToleranceMm = 0.1, steps: given = {} }: AssemblyOptions = {},
): Promise<AssemblyStudy> {
  const solids = await buildSolids(corner, chordToleranceMm);
  const bodies = await fastenerBodies(corner, chordToleranceMm);
  const wheel = corner.parts.find(({ kind }) => kind === 'wheel')?.id;
  const thingOf = (partId: string): string => {
    const kind = corner.parts.find(({ id }) => id === partId)?.kind;
    return kind === 'tyre' && wheel !== undefined ? wheel : partId;
  };
  const steps = corner.parts
    .filter(({ id }) => thingOf(id) === id)
    .map((entry): Fitted => ({ id: entry.id, step: given[entry.id] ?? assemblyStep(corner, entry) }));
  const stepOf = (id: string) => steps.find((thing) => thing.id === thingOf(id))?.step ?? 0;

  const isPresent = (partId: string, boltsId: string) => stepOf(partId) <= stepOf(boltsId);
  const seated = bodies.filter(({ stage }) => stage === 'seated');
  const moving = bodies.filter(({ stage }) => stage !== 'seated');
  const find = blockFinder(corner, solids);
  const ways = await withFreeHandles(corner, find(moving, seated), seated, find, {
    chordToleranceMm,
    countPresent: ({ body, blocks }) => blocks.filter(({ partId }) => isPresent(partId, body.boltsId)).length,
  });
  const precedences: Precedence[] = [...putOnFirst(corner)];
  for (const solid of solids)
    for (const { solidId } of solid.seats ?? []) {
      const held = solids.find(({ id }) => id === solidId);
      if (held === undefined) continue;
      const [bolts, part] = [corner.parts[solid.partIndex].id, corner.parts[held.partIndex].id];
      precedences.push({
        earlier: thingOf(part),
        later: bolts,
        strict: false,
        why: `${solid.label} hold ${held.label}`,
      });
    }
  for (const { body, blocks } of ways)
    for (const { partId, label } of blocks)
      precedences.push({
        earlier: body.boltsId,
        later: thingOf(partId),
        strict: true,
        why: `${label} is in the way of ${body.label}`,
      });
  return {
    steps,
    unreachable: ways
      .map((way) => ({
        ...way,
        blocks: way.blocks.filter(({ partId }) => isPresent(partId, way.body.boltsId)),
      }))
      .filter(({ blocks }) => blocks.length > 0),
    order: orderOf(steps, precedences),
  };
}

/** What has to be there before a part can be put on: that on which it sits, and what it goes over. */
function putOnFirst({ parts }: Corner): Precedence[] {
  return parts.flatMap((entry) =>
    parts
      .filter((other) => sitsOn(entry, other))
      .map(
        (other): Precedence => ({
          earlier: other.id,
          later: entry.id,
          strict: false,
          why: `${entry.label ?? entry.id} goes on ${other.label ?? other.id}`,
        }),
      ),
  );
}

function sitsOn(entry: PartEntry, other: PartEntry): boolean {
  switch (entry.kind) {
    case 'hub':
      return other.kind === 'upright' || (other.kind === 'spacer' && other.place === 'upright');
    case 'rotor':
      return other.kind === 'hub';
    case 'caliper':
      return other.kind === 'rotor' || other.kind === 'upright';
    case 'wheel':
      return (
        other.kind === 'hub' || other.kind === 'rotor' || (other.kind === 'spacer' && other.place === 'wheel')
      );
    default:
      return false;
  }
}
