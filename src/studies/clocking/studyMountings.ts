import type { Design } from '../../design/design.ts';
import { type Setup, SetupMemory, setUp } from '../../sweep/setUp.ts';
import { type Mounting, mountedDesign } from './apply.ts';
import type { LeastMargin } from './axis.ts';
import type { Candidate } from './candidates.ts';
import { type ClockingStudy, type SeenSoFar, type StudyOptions, studyClocking } from './study.ts';
import type { Unmet } from './unmet.ts';

/** A corner mounted one way round, and its study. */
export interface MountedStudy {
  mounting: Mounting;
  setup: Setup;
  study: ClockingStudy;
}

/** A candidate of one of several mountings. */
export interface MountedCandidate extends Candidate {
  /** Index of its mounting. */
  mounting: number;
}

/** Wants that no clocking of any mounting meets. */
export interface UnmetByAll extends Unmet {
  /** Index of the mounting in which least is missing; undefined for a contradiction. */
  mounting: number | undefined;
}

/** What the studies of several mountings found together. */
export interface MountingsStudy {
  mounted: readonly MountedStudy[];
  /** Of all mountings together, best first. */
  candidates: readonly MountedCandidate[];
  /** Wants that no mounting meets. One that some mounting meets is told by the studies of the others alone. */
  unmet: readonly UnmetByAll[];
}

export interface StudyMountingsOptions extends Omit<StudyOptions, 'known' | 'onSeen'> {
  /** The earlier study of a mounting, if there is one: see `StudyOptions`. */
  knownOf?: (setup: Setup) => StudyOptions['known'];
  /** See `StudyOptions`; of the mounting in hand. */
  onSeen?: (seen: SeenSoFar, setup: Setup) => void;
  /** Each mounting's study as it is done. */
  onStudied?: (one: MountedStudy) => void;
}

/**
 * Makes a corner ready as mounted the ways round told; `knownOf` may give one that is made already. Rejects with
 * DesignProblems where one cannot be built.
 */
export async function mountedSetups(
  drawn: Setup,
  mountings: readonly Mounting[],
  knownOf: (design: Design) => Setup | undefined = () => undefined,
): Promise<Pick<MountedStudy, 'mounting' | 'setup'>[]> {
  const memory = new SetupMemory();
  const made: Pick<MountedStudy, 'mounting' | 'setup'>[] = [];
  for (const mounting of mountings) {
    const design = mountedDesign(drawn.design, mounting);
    const setup =
      design === drawn.design ? drawn : (knownOf(design) ?? (await setUp(design, drawn.settings, memory)));
    made.push({ mounting, setup });
  }
  return made;
}

/**
 * Studies the clockings of a corner that is mounted several ways round, one after the other, and ranks the candidates of all
 * together. Rejects as `studyClocking` does. Progress counts the pairs of all, those of a mounting not yet begun as many as
 * those of the one in hand.
 */
export async function studyMountings(
  setups: readonly Pick<MountedStudy, 'mounting' | 'setup'>[],
  { knownOf, onSeen, onStudied, onProgress, ...options }: StudyMountingsOptions = {},
): Promise<MountingsStudy> {
  const mounted: MountedStudy[] = [];
  let before = 0;
  for (const { mounting, setup } of setups) {
    const left = setups.length - mounted.length;
    const study = await studyClocking(setup, {
      ...options,
      known: knownOf?.(setup),
      onSeen: onSeen && ((seen) => onSeen(seen, setup)),
      onProgress: (done, total) => onProgress?.(before + done, before + left * total),
    });
    before += study.pairs.length;
    const one = { mounting, setup, study };
    mounted.push(one);
    onStudied?.(one);
  }
  const { most = 5, wants = {} } = options;
  const candidates = mounted.flatMap(({ study }, mounting) =>
    study.candidates.map((candidate) => ({ ...candidate, mounting })),
  );
  candidates.sort((a, b) =>
    a.least.marginMm === b.least.marginMm ? 0 : b.least.marginMm - a.least.marginMm,
  );
  const unchanging = mounted.map(({ study }) => study.unchanging);
  return {
    mounted,
    candidates: soundFirst(candidates, ({ mounting }) => mounting, unchanging, wants.leastMarginMm).slice(
      0,
      most,
    ),
    unmet: unmetByAll(mounted.map(({ study }) => study.unmet)),
  };
}

/**
 * Candidates in the same order, but for those of a mounting in which a pair that no clocking changes misses its target: they
 * come last, the more is missing the later, after those of one in which that cannot be told. `unchanging`: of each mounting.
 */
export function soundFirst<C>(
  candidates: readonly C[],
  mountingOf: (candidate: C) => number,
  unchanging: readonly LeastMargin[],
  leastMarginMm?: number,
): C[] {
  const missingMm = (one: C) => missingOf(unchanging[mountingOf(one)], leastMarginMm);
  return candidates.toSorted((a, b) => missingMm(a) - missingMm(b));
}

/** What a margin misses of the least that is wanted, mm: 0 where nothing, next to nothing where it cannot be told. */
export function missingOf({ marginMm, errorMm }: LeastMargin, leastMarginMm = 0): number {
  if (Number.isNaN(marginMm)) return Number.MIN_VALUE;
  return marginMm === Number.POSITIVE_INFINITY ? 0 : Math.max(0, leastMarginMm + errorMm - marginMm);
}

/** The wants that are unmet in every one of some studies, each as where least is missing. */
export function unmetByAll(studies: readonly (readonly Unmet[])[]): UnmetByAll[] {
  const [first, ...others] = studies;
  return first.flatMap((one): UnmetByAll[] => {
    const same = [one, ...others.map((unmet) => unmet.find((other) => areSameWants(one, other)))];
    if (same.includes(undefined)) return [];
    let found: UnmetByAll = { ...one, best: undefined, mounting: undefined };
    same.forEach((unmet, mounting) => {
      if (unmet?.best === undefined) return;
      const isLess = found.best === undefined || unmet.best.least.marginMm > found.best.least.marginMm;
      if (isLess) found = { ...unmet, mounting };
    });
    return [found];
  });
}

/** Whether two tell the same wants as not met. */
export const areSameWants = (one: Unmet, other: Unmet): boolean =>
  JSON.stringify(one.wants) === JSON.stringify(other.wants);
