import type { Design } from '../../design/design.ts';
import { type Setup, SetupMemory, setUp } from '../../sweep/setUp.ts';
import { type Mounting, mountedDesign } from './apply.ts';
import type { LeastMargin } from './axis.ts';
import type { Candidate } from './candidates.ts';
import { type ClockingStudy, type StudyOptions, type StudyPreview, studyClocking } from './study.ts';
import type { Unmet } from './unmet.ts';

/** A corner with one mounting, and its study. */
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

/** Requirements that no clocking of any mounting meets. */
export interface UnmetByAll extends Unmet {
  /** Index of the mounting with the smallest shortfall; undefined for a contradiction. */
  mounting: number | undefined;
}

/** Combined results of the studies of several mountings. */
export interface MountingsStudy {
  mounted: readonly MountedStudy[];
  /** Candidates of all mountings, best first. */
  candidates: readonly MountedCandidate[];
  /** Requirements that no mounting meets. One that some mounting meets is listed only in the studies of the others. */
  unmet: readonly UnmetByAll[];
}

export interface StudyMountingsOptions extends Omit<StudyOptions, 'known' | 'onPreview'> {
  /** The earlier study of a mounting, if there is one; see `StudyOptions`. */
  knownOf?: (setup: Setup) => StudyOptions['known'];
  /** See `StudyOptions`; for the mounting being studied. */
  onPreview?: (preview: StudyPreview, setup: Setup) => void;
  /** Called with each mounting's study when it is done. */
  onStudied?: (one: MountedStudy) => void;
}

/**
 * Sets up a corner with the given mountings; `knownOf` may return an existing setup. Rejects with DesignProblems if
 * one cannot be built.
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
 * Studies the clockings of a corner with several mountings, one after another, and ranks all candidates together.
 * Rejects as `studyClocking` does. Progress counts the pairs of all mountings; a mounting that is not started counts
 * as many as the current one.
 */
export async function studyMountings(
  setups: readonly Pick<MountedStudy, 'mounting' | 'setup'>[],
  { knownOf, onPreview, onStudied, onProgress, ...options }: StudyMountingsOptions = {},
): Promise<MountingsStudy> {
  const mounted: MountedStudy[] = [];
  let before = 0;
  for (const { mounting, setup } of setups) {
    const left = setups.length - mounted.length;
    const study = await studyClocking(setup, {
      ...options,
      known: knownOf?.(setup),
      onPreview: onPreview && ((preview) => onPreview(preview, setup)),
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
    candidates: validFirst(candidates, ({ mounting }) => mounting, unchanging, wants.leastMarginMm).slice(
      0,
      most,
    ),
    unmet: unmetByAll(mounted.map(({ study }) => study.unmet)),
  };
}

/**
 * Keeps the order of the candidates, but moves those of a mounting whose unchanging pairs miss their target to the
 * end: first those with an unknown shortfall, then by increasing shortfall. `unchanging`: the smallest unchanging
 * margin of each mounting.
 */
export function validFirst<C>(
  candidates: readonly C[],
  mountingOf: (candidate: C) => number,
  unchanging: readonly LeastMargin[],
  leastMarginMm?: number,
): C[] {
  const shortfall = (one: C) => shortfallMm(unchanging[mountingOf(one)], leastMarginMm);
  return candidates.toSorted((a, b) => shortfall(a) - shortfall(b));
}

/**
 * Shortfall of a margin, less its error, from the required margin, mm: 0 if it is met; the smallest positive number
 * if unknown.
 */
export function shortfallMm({ marginMm, errorMm }: LeastMargin, leastMarginMm = 0): number {
  if (Number.isNaN(marginMm)) return Number.MIN_VALUE;
  return marginMm === Number.POSITIVE_INFINITY ? 0 : Math.max(0, leastMarginMm + errorMm - marginMm);
}

/** The requirements that are unmet in all of some studies, each from the study with the smallest shortfall. */
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

/** Whether two entries list the same unmet requirements. */
export const areSameWants = (one: Unmet, other: Unmet): boolean =>
  JSON.stringify(one.wants) === JSON.stringify(other.wants);
