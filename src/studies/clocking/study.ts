import type { Setup } from '../../sweep/setUp.ts';
import { Axis, type LeastMargin, type ProfiledPair } from './axis.ts';
import { type Candidate, candidatesOf, leastAt } from './candidates.ts';
import type { ClockingCrew } from './clockingCrew.ts';
import { pairsOf } from './clockingDesk.ts';
import { bodiesOfFasteners } from './fastenerPairs.ts';
import { hubPeriodDeg } from './figures.ts';
import { type FirstLook, NOT_SEEN, profileSeen } from './firstLook.ts';
import { type Profile, profileOf } from './profile.ts';
import { type Region, type RegionAxes, regionsOf } from './region.ts';
import { angleOf, type Clockings, drawnClockings, type StudyPair } from './studyPairs.ts';
import { type Unmet, unmetWants } from './unmet.ts';
import { commonArcs, type WantedArc, type Wants, wantedArcs } from './wants.ts';

/** What the study of a corner's clockings found, at ride height. */
export interface ClockingStudy {
  designHash: string;
  drawn: Clockings;
  pairs: readonly StudyPair[];
  /** Of each pair, its margin over the angle that it follows. */
  profiles: readonly ProfiledPair[];
  axes: RegionAxes;
  /** Margins as drawn: of the pairs that follow a clocking, and of those that none changes. */
  asDrawn: LeastMargin;
  unchanging: LeastMargin;
  regions: readonly Region[];
  candidates: readonly Candidate[];
  /** Wants that no clocking meets, each with what forbids it. */
  unmet: readonly Unmet[];
}

export interface StudyOptions {
  wants?: Wants;
  /** Most candidates, 5 unless told, and how far apart those of one region are at least, 15 degrees unless told. */
  most?: number;
  apartDeg?: number;
  /** An earlier study of the same setup with the same least margin: its pairs are not measured again. */
  known?: Pick<ClockingStudy, 'pairs' | 'profiles'>;
  /** Ends the study early; the promise is then rejected with the signal's reason. */
  signal?: AbortSignal;
  /** Pairs done, of all pairs. */
  onProgress?: (done: number, total: number) => void;
  /** Workers that measure the pairs between them; by default the calling thread does. The study is the same. */
  crew?: ClockingCrew;
  /**
   * What is seen before the study is done: a first look, at some of the pairs and then at all, then those that are done
   * beside it. Only with a crew.
   */
  onSeen?: (seen: SeenSoFar) => void;
}

/** What is seen of a study that is not done. Nothing of it is proved but what is the same in the end. */
export interface SeenSoFar {
  pairs: readonly StudyPair[];
  axes: RegionAxes;
  /** Pairs that are measured and proved, of all pairs. */
  done: number;
  total: number;
}

/** Time between two pictures of what is seen, ms. */
const SEEN_EVERY_MS = 400;
/** The first is not waited for any longer than this, though not all pairs have been looked at. */
const FIRST_SEEN_MS = 100;

/** Gives way to other work. */
const breathe = () => new Promise((resolve) => setTimeout(resolve, 0));

/**
 * Studies the clockings of a corner's caliper and hub: the margin of each pair over the angle that it follows, where all
 * keep theirs, and the best of it. Rejects with an Error where there is no caliper, with a RangeError for a want that
 * cannot be, and with the signal's reason when cancelled.
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
  caliperWanted: commonArcs(wanted, 'caliper'),
  hubWanted: commonArcs(wanted, 'hub'),
});

async function measuredPairs(
  setup: Setup,
  wanted: readonly WantedArc[],
  { wants = {}, signal, onProgress, crew, onSeen }: StudyOptions,
): Promise<Pick<ClockingStudy, 'pairs' | 'profiles'>> {
  const { leastMarginMm: leastMm } = wants;
  const bodies = await bodiesOfFasteners(setup);
  const pairs = pairsOf(setup, bodies, leastMm);
  const profiles: Profile[] = [];
  let done = 0;
  const keep = (index: number, profile: Profile) => {
    profiles[index] = profile;
    done += 1;
    onProgress?.(done, pairs.length);
  };
  if (crew === undefined) {
    for (const [index, { pair }] of pairs.entries()) {
      signal?.throwIfAborted();
      keep(index, profileOf(pair));
      await breathe();
    }
  } else {
    const looks: FirstLook[] = [];
    const looked = pairs.flatMap(({ about }, index) => (about === 'none' ? [] : [index]));
    let seen = 0;
    let nextMs = Number.POSITIVE_INFINITY;
    const tell = () => {
      const now = performance.now();
      const isFirstWhole = seen === looked.length && done === 0;
      if (onSeen === undefined || (now < nextMs && !isFirstWhole)) return;
      const soFar = pairs.flatMap(({ about, pair }, index) => {
        if (about === 'none' && profiles[index] === undefined) return [];
        const look = looks[index];
        const profile = profiles[index] ?? (look === undefined ? NOT_SEEN : profileSeen(pair, look));
        return [{ index, pair, profile }];
      });
      onSeen({ pairs, axes: axesOf(pairs, soFar, wanted), done, total: pairs.length });
      nextMs = now + SEEN_EVERY_MS;
    };
    await crew.measure({
      setup,
      bodies,
      leastMm,
      pairs: pairs.length,
      looked,
      signal,
      onLook(index, look) {
        if (seen === 0) nextMs = performance.now() + FIRST_SEEN_MS;
        looks[index] = look;
        seen += 1;
        tell();
      },
      onProfile(index, profile) {
        keep(index, profile);
        if (done < pairs.length) tell();
      },
    });
  }
  return { pairs, profiles: pairs.map(({ pair }, index) => ({ index, pair, profile: profiles[index] })) };
}

/** The margin of each pair at two clockings, as the study has it. */
export const marginsAt = ({ pairs }: Pick<ClockingStudy, 'pairs'>, clockings: Clockings) =>
  pairs.map(({ about, pair }) => pair.at(angleOf(about, clockings)));
