import { yieldToOthers } from '../../executors/yieldToOthers.ts';
import type { Setup } from '../../sweep/setUp.ts';
import { Axis, type LeastMargin, type ProfiledPair } from './axis.ts';
import { type Candidate, candidatesOf, leastAt } from './candidates.ts';
import type { ClockingPool } from './clockingPool.ts';
import { pairsOf } from './clockingProtocol.ts';
import { bodiesOfFasteners } from './fastenerPairs.ts';
import { hubPeriodDeg } from './figures.ts';
import { estimatedProfile, type FirstEstimate, NO_ESTIMATE } from './firstEstimate.ts';
import { type Profile, profileOf } from './profile.ts';
import { type Region, type RegionAxes, regionsOf } from './region.ts';
import { angleOf, type Clockings, drawnClockings, type StudyPair } from './studyPairs.ts';
import { type Unmet, unmetWants } from './unmet.ts';
import { commonArcs, type WantedArc, type Wants, wantedArcs } from './wants.ts';

/** Results of the clocking study of a corner, at ride height. */
export interface ClockingStudy {
  designHash: string;
  drawn: Clockings;
  pairs: readonly StudyPair[];
  /** Margin of each pair over the angle that it depends on. */
  profiles: readonly ProfiledPair[];
  axes: RegionAxes;
  /** Smallest margins with the file's clockings: of the pairs that depend on a clocking, and of those that do not. */
  asDrawn: LeastMargin;
  unchanging: LeastMargin;
  regions: readonly Region[];
  candidates: readonly Candidate[];
  /** Requirements that no clocking meets, each with the pair that prevents it. */
  unmet: readonly Unmet[];
}

export interface StudyOptions {
  wants?: Wants;
  /** Largest number of candidates, default 5, and smallest distance of those of one region, default 15 degrees. */
  most?: number;
  apartDeg?: number;
  /** An earlier study of the same setup with the same required margin; its pairs are not measured again. */
  known?: Pick<ClockingStudy, 'pairs' | 'profiles'>;
  /** Cancels the study; the promise then rejects with the signal's reason. */
  signal?: AbortSignal;
  /** Number of pairs done and number of all pairs. */
  onProgress?: (done: number, total: number) => void;
  /** Workers that measure the pairs; by default the calling thread does. The result is the same. */
  pool?: ClockingPool;
  /**
   * Called with previews before the study is done: first from estimates of some and then all pairs, then with
   * measured pairs. Only with a pool.
   */
  onPreview?: (preview: StudyPreview) => void;
}

/** A preview of a running study. Measured pairs are proved, estimated ones are not. */
export interface StudyPreview {
  pairs: readonly StudyPair[];
  axes: RegionAxes;
  /** Number of pairs measured and proved, and number of all pairs. */
  done: number;
  total: number;
}

/** Time between two previews, ms. */
const PREVIEW_INTERVAL_MS = 400;
/** Longest wait for the first preview, even if not all pairs are estimated, ms. */
const FIRST_PREVIEW_MS = 100;

/**
 * Studies the clockings of a corner's caliper and hub: the margin of each pair over the angle that it depends on, the
 * regions in which all pairs keep their margins, and the best clockings. Rejects with an Error if there is no
 * caliper, with a RangeError for an impossible requirement, and with the signal's reason when cancelled.
 */
export async function studyClocking(setup: Setup, options: StudyOptions = {}): Promise<ClockingStudy> {
  const { wants = {}, most = 5, apartDeg = 15, signal } = options;
  const { corner } = setup.design;
  const wanted = wantedArcs(corner, wants);
  const { pairs, profiles } = options.known ?? (await measuredPairs(setup, wanted, options));
  signal?.throwIfAborted();
  const axes = axesOf(pairs, profiles, wanted);
  const drawn = drawnClockings(setup.design);
  const regions = regionsOf(axes);
  return {
    designHash: setup.design.hash,
    drawn,
    pairs,
    profiles,
    axes,
    asDrawn: leastAt(axes, drawn),
    unchanging: axisOf(pairs, profiles, 'none').at(0),
    regions,
    candidates: candidatesOf(axes, regions, { apartDeg, most, drawn, hubPeriodDeg: hubPeriodDeg(corner) }),
    unmet: unmetWants(axes, wanted),
  };
}

const axisOf = (
  pairs: readonly StudyPair[],
  profiles: readonly ProfiledPair[],
  about: StudyPair['about'],
): Axis => new Axis(profiles.filter(({ index }) => pairs[index].about === about));

const axesOf = (
  pairs: readonly StudyPair[],
  profiles: readonly ProfiledPair[],
  wanted: readonly WantedArc[],
): RegionAxes => ({
  caliper: axisOf(pairs, profiles, 'caliper'),
  hub: axisOf(pairs, profiles, 'hub'),
  between: axisOf(pairs, profiles, 'between'),
  caliperAllowed: commonArcs(wanted, 'caliper'),
  hubAllowed: commonArcs(wanted, 'hub'),
});

async function measuredPairs(
  setup: Setup,
  wanted: readonly WantedArc[],
  { wants = {}, signal, onProgress, pool, onPreview }: StudyOptions,
): Promise<Pick<ClockingStudy, 'pairs' | 'profiles'>> {
  const { leastMarginMm: leastMm } = wants;
  const bodies = await bodiesOfFasteners(setup);
  const pairs = pairsOf(setup, bodies, leastMm);
  const profiles: Profile[] = [];
  let done = 0;
  const record = (index: number, profile: Profile) => {
    profiles[index] = profile;
    done += 1;
    onProgress?.(done, pairs.length);
  };
  if (pool === undefined) {
    for (const [index, { pair }] of pairs.entries()) {
      signal?.throwIfAborted();
      record(index, profileOf(pair));
      await yieldToOthers();
    }
  } else {
    const estimates: FirstEstimate[] = [];
    const toEstimate = pairs.flatMap(({ about }, index) => (about === 'none' ? [] : [index]));
    let estimatedCount = 0;
    let nextMs = Number.POSITIVE_INFINITY;
    const reportPreview = () => {
      const now = performance.now();
      const isFirstWhole = estimatedCount === toEstimate.length && done === 0;
      if (onPreview === undefined || (now < nextMs && !isFirstWhole)) return;
      const soFar = pairs.flatMap(({ about, pair }, index) => {
        if (about === 'none' && profiles[index] === undefined) return [];
        const estimate = estimates[index];
        const profile =
          profiles[index] ?? (estimate === undefined ? NO_ESTIMATE : estimatedProfile(pair, estimate));
        return [{ index, pair, profile }];
      });
      onPreview({ pairs, axes: axesOf(pairs, soFar, wanted), done, total: pairs.length });
      nextMs = now + PREVIEW_INTERVAL_MS;
    };
    await pool.measure({
      setup,
      bodies,
      minMarginMm: leastMm,
      pairs: pairs.length,
      toEstimate,
      signal,
      onEstimate(index, estimate) {
        if (estimatedCount === 0) nextMs = performance.now() + FIRST_PREVIEW_MS;
        estimates[index] = estimate;
        estimatedCount += 1;
        reportPreview();
      },
      onProfile(index, profile) {
        record(index, profile);
        if (done < pairs.length) reportPreview();
      },
    });
  }
  return { pairs, profiles: pairs.map(({ pair }, index) => ({ index, pair, profile: profiles[index] })) };
}

/** The margin of each pair at two clockings. */
export const marginsAt = ({ pairs }: Pick<ClockingStudy, 'pairs'>, clockings: Clockings) =>
  pairs.map(({ about, pair }) => pair.at(angleOf(about, clockings)));
