import { assemblyStep } from '../../design/assemblyStep.ts';
import type { Corner } from '../../design/schema.ts';
import { buildSolids } from '../../solids/catalogue.ts';
import { type FastenerBody, fastenerBodies } from '../../solids/fasteners/fastenerBodies.ts';
import { boltsUnderBody } from '../../solids/fasteners/fastenerSeats.ts';
import type { Solid } from '../../solids/solid.ts';
import { boltPrecedences, comesBefore, itemsOf, mountingPrecedences } from './assemblyItems.ts';
import { type BestOrder, bestOrder } from './bestOrder.ts';
import { type Block, type BlockedWay, blockFinder, type FindBlocks } from './blocked.ts';
import { withFreeHandles } from './freeHandle.ts';
import type { Fitted, Precedence } from './order.ts';

/** A fastener that cannot be put in, taken out or turned at its step. */
export interface UnreachableWay extends BlockedWay {
  /**
   * Whether it can be reached in the proposed order, with the handle direction if the wrench may come from any side.
   * Otherwise a cycle of precedences that excludes it from every order in which the fasteners before it can be
   * reached.
   */
  proposed:
    | { kind: 'reached'; handleDeg: number | undefined }
    | { kind: 'never'; cycle: readonly Precedence[] };
}

export interface AssemblyStudy {
  /** Every part and set of bolts with its assembly step. A tyre goes with its wheel. */
  steps: readonly Fitted[];
  /** Precedences that these steps violate: a part's support, or a part held by bolts, is put on too late. */
  contradictions: readonly Precedence[];
  /**
   * Fasteners that cannot be put in, taken out or turned at their step, each with the parts in its way at that step.
   */
  unreachable: readonly UnreachableWay[];
  /**
   * The order nearest to the given steps in which every fastener can be reached, except those that never can.
   * Fasteners that are reached in the given steps stay reached.
   */
  order: Pick<BestOrder, 'steps' | 'changes'>;
  /** Sets of bolts whose access cannot be checked, because the caliper's body, as entered, covers them. */
  underBody: readonly string[];
}

export interface AssemblyOptions {
  chordToleranceMm?: number;
  /** Steps by the ids of parts or bolts; they replace those of the file and the defaults. */
  steps?: Readonly<Record<string, number>>;
  /** Solids of this corner and a finder of blocks among them, if the caller has them already. */
  known?: { solids: readonly Solid[]; find: FindBlocks };
}

/**
 * Checks which fasteners of a corner can be reached in its order of assembly, and finds an order in which the others
 * can. The corner is at ride height with the wheel straight ahead. Not checked: whether a part could be moved out of
 * the way by steering or travel, and whether the parts themselves can be brought to their places. A wrench without a
 * given direction comes from the side with the fewest parts in its way. Throws DesignProblems for a solid that cannot
 * be built, and an Error that names the set for bolts that cannot be built.
 */
export async function studyAssembly(
  corner: Corner,
  { chordToleranceMm = 0.1, steps: given = {}, known }: AssemblyOptions = {},
): Promise<AssemblyStudy> {
  const solids = known?.solids ?? (await buildSolids(corner, chordToleranceMm));
  const find = known?.find ?? blockFinder(corner, solids);
  const bodies = await fastenerBodies(corner, chordToleranceMm);
  const { items, itemOf } = itemsOf(corner);
  const steps = items.map(
    (entry): Fitted => ({
      id: entry.id,
      step: given[entry.id] ?? assemblyStep(corner, entry),
    }),
  );
  const stepOf = new Map(steps.map(({ id, step }) => [id, step]));
  const isPresent = (partId: string, { boltsId }: FastenerBody) =>
    (stepOf.get(itemOf(partId)) as number) <= (stepOf.get(boltsId) as number);
  const presentIn = ({ body, blocks }: Pick<BlockedWay, 'body' | 'blocks'>) =>
    blocks.filter(({ partId }) => isPresent(partId, body));

  const seated = bodies.filter(({ stage }) => stage === 'seated');
  const moving = bodies.filter(({ stage }) => stage !== 'seated');
  const always = [...mountingPrecedences(corner), ...boltPrecedences(corner, solids, itemOf)];
  const ways = await withFreeHandles(corner, find(moving, seated), seated, find, {
    chordToleranceMm,
    countPresent: (way) => presentIn(way).length,
    isBefore: (partId, boltsId) => comesBefore(always, itemOf(partId), boltsId),
  });
  const isReached = (way: BlockedWay) => presentIn(way).length === 0;
  // Fasteners that are reached in the given steps have priority.
  const prioritised = [...ways.filter(isReached), ...ways.filter((way) => !isReached(way))];
  const found = bestOrder(
    steps,
    always,
    prioritised.map(({ body, blocks, others }) =>
      [blocks, ...others.map((other) => other.blocks)].map((list) => afterBolts(body, list, itemOf)),
    ),
  );
  return {
    steps,
    contradictions: always.filter(
      ({ earlier, later }) => (stepOf.get(earlier) as number) > (stepOf.get(later) as number),
    ),
    unreachable: prioritised.flatMap((way, want): UnreachableWay[] => {
      if (isReached(way)) return [];
      const option = found.kept[want];
      const handleDeg =
        option === undefined || option === 0 ? way.handleDeg : way.others[option - 1].handleDeg;
      const proposed =
        option === undefined
          ? ({ kind: 'never', cycle: found.cycles.get(want) ?? [] } as const)
          : ({ kind: 'reached', handleDeg } as const);
      return [{ ...way, blocks: presentIn(way), proposed }];
    }),
    order: { steps: found.steps, changes: found.changes },
    underBody: boltsUnderBody(corner),
  };
}

/** Precedences that put all parts in a fastener's way after its bolts. */
const afterBolts = (
  { boltsId, label }: FastenerBody,
  blocks: readonly Block[],
  itemOf: (partId: string) => string,
): Precedence[] =>
  blocks.map((block) => ({
    earlier: boltsId,
    later: itemOf(block.partId),
    strict: true,
    why: `${block.label} is in the way of ${label}`,
  }));
