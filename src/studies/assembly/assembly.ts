import { assemblyStep } from '../../design/assemblyStep.ts';
import type { Corner } from '../../design/schema.ts';
import { buildSolids } from '../../solids/catalogue.ts';
import { type FastenerBody, fastenerBodies } from '../../solids/fastenerBodies.ts';
import { boltsUnderBody } from '../../solids/fastenerSeats.ts';
import type { Solid } from '../../solids/solid.ts';
import { type BestOrder, bestOrder } from './bestOrder.ts';
import { type Block, type BlockedWay, blockFinder, type FindBlocks } from './blocked.ts';
import { withFreeHandles } from './freeHandle.ts';
import type { Fitted, Precedence } from './order.ts';
import { comesBefore, heldFirst, putOnFirst, thingsOf } from './putOnFirst.ts';

/** A fastener that cannot be put in, taken out or turned at its step. */
export interface UnreachableWay extends BlockedWay {
  /**
   * In the proposed order: whether it can be reached, and from which direction where a wrench may come from anywhere. Else a
   * ring of reasons for which it cannot in any order in which those before it can.
   */
  proposed:
    | { kind: 'reached'; handleDeg: number | undefined }
    | { kind: 'never'; ring: readonly Precedence[] };
}

export interface AssemblyStudy {
  /** Every part and set of bolts with the step in which it is put on. A tyre goes with its wheel. */
  steps: readonly Fitted[];
  /** What these steps have the wrong way round: what it goes on, or what bolts hold, is put on later. */
  contradictions: readonly Precedence[];
  /** Fasteners that cannot be put in, taken out or turned at their step, each with what is there already in its way. */
  unreachable: readonly UnreachableWay[];
  /**
   * The nearest order in which every fastener can be reached that can: all of them, unless some of the unreachable never can.
   * Beside those that are reached in the given steps, which stay so.
   */
  order: Pick<BestOrder, 'steps' | 'changes'>;
  /** Sets of bolts of which it is not known whether the caliper leaves them room: its body covers them as measured. */
  underBody: readonly string[];
}

export interface AssemblyOptions {
  chordToleranceMm?: number;
  /** Steps by the ids of parts or bolts, in place of those of the file and the usual ones. */
  steps?: Readonly<Record<string, number>>;
  /** Solids of this corner, and what finds what is in a way among them, where some caller has them. */
  known?: { solids: readonly Solid[]; find: FindBlocks };
}

/**
 * Which fasteners of a corner can be reached in the order in which it is put together, and in which order the others could. The
 * corner stands at ride height with the wheel straight ahead: what moves with steering or travel may well be moved out of
 * the way, which is not looked into, nor is whether parts themselves can be brought to their place. A wrench whose direction
 * is not given comes from where the least is in its way. Throws DesignProblems for a solid that cannot be built, and an
 * Error that names the set for bolts that cannot be.
 */
export async function studyAssembly(
  corner: Corner,
  { chordToleranceMm = 0.1, steps: given = {}, known }: AssemblyOptions = {},
): Promise<AssemblyStudy> {
  const solids = known?.solids ?? (await buildSolids(corner, chordToleranceMm));
  const find = known?.find ?? blockFinder(corner, solids);
  const bodies = await fastenerBodies(corner, chordToleranceMm);
  const { things, thingOf } = thingsOf(corner);
  const steps = things.map(
    (entry): Fitted => ({
      id: entry.id,
      step: given[entry.id] ?? assemblyStep(corner, entry),
    }),
  );
  const stepOf = new Map(steps.map(({ id, step }) => [id, step]));
  const isPresent = (partId: string, { boltsId }: FastenerBody) =>
    (stepOf.get(thingOf(partId)) as number) <= (stepOf.get(boltsId) as number);
  const presentIn = ({ body, blocks }: Pick<BlockedWay, 'body' | 'blocks'>) =>
    blocks.filter(({ partId }) => isPresent(partId, body));

  const seated = bodies.filter(({ stage }) => stage === 'seated');
  const moving = bodies.filter(({ stage }) => stage !== 'seated');
  const always = [...putOnFirst(corner), ...heldFirst(corner, solids, thingOf)];
  const ways = await withFreeHandles(corner, find(moving, seated), seated, find, {
    chordToleranceMm,
    countPresent: (way) => presentIn(way).length,
    isBefore: (partId, boltsId) => comesBefore(always, thingOf(partId), boltsId),
  });
  const isReached = (way: BlockedWay) => presentIn(way).length === 0;
  // What is reached in the given steps is kept before anything else is won.
  const wanted = [...ways.filter(isReached), ...ways.filter((way) => !isReached(way))];
  const found = bestOrder(
    steps,
    always,
    wanted.map(({ body, blocks, others }) =>
      [blocks, ...others.map((other) => other.blocks)].map((list) => afterBolts(body, list, thingOf)),
    ),
  );
  return {
    steps,
    contradictions: always.filter(
      ({ earlier, later }) => (stepOf.get(earlier) as number) > (stepOf.get(later) as number),
    ),
    unreachable: wanted.flatMap((way, want): UnreachableWay[] => {
      if (isReached(way)) return [];
      const option = found.kept[want];
      const handleDeg =
        option === undefined || option === 0 ? way.handleDeg : way.others[option - 1].handleDeg;
      const proposed =
        option === undefined
          ? ({ kind: 'never', ring: found.rings.get(want) ?? [] } as const)
          : ({ kind: 'reached', handleDeg } as const);
      return [{ ...way, blocks: presentIn(way), proposed }];
    }),
    order: { steps: found.steps, changes: found.changes },
    underBody: boltsUnderBody(corner),
  };
}

/** That all that is in the way of a fastener comes after its bolts. */
const afterBolts = (
  { boltsId, label }: FastenerBody,
  blocks: readonly Block[],
  thingOf: (partId: string) => string,
): Precedence[] =>
  blocks.map((block) => ({
    earlier: boltsId,
    later: thingOf(block.partId),
    strict: true,
    why: `${block.label} is in the way of ${label}`,
  }));
