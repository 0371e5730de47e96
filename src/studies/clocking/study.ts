import type { Setup } from '../../sweep/setUp.ts';
import { Axis, type LeastMargin, type ProfiledPair, profiled } from './axis.ts';
import { type Candidate, candidatesOf, leastAt } from './candidates.ts';
import { fastenerPairs } from './fastenerPairs.ts';
import { hubPeriodDeg } from './figures.ts';
import { type Region, type RegionAxes, regionsOf } from './region.ts';
import { angleOf, type Clockings, drawnClockings, type StudyPair, studyPairs } from './studyPairs.ts';
import { type Unmet, unmetWants } from './unmet.ts';
import { commonArcs, type Wants, wantedArcs } from './wants.ts';

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
}

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
  const { pairs, profiles } = options.known ?? (await measuredPairs(setup, options));
  signal?.throwIfAborted();
  const axisOf = (about: StudyPair['about']) =>
    new Axis(profiles.filter(({ index }) => pairs[index].about === about));
  const axes: RegionAxes = {
    caliper: axisOf('caliper'),
    hub: axisOf('hub'),
    between: axisOf('between'),
    caliperWanted: commonArcs(wanted, 'caliper'),
    hubWanted: commonArcs(wanted, 'hub'),
  };
  const drawn = drawnClockings(setup.design);
  const regions = regionsOf(axes);
  return {
    designHash: setup.design.hash,
    drawn,
    pairs,
    profiles,
    axes,
    asDrawn: leastAt(axes, drawn),
    unchanging: axisOf('none').at(0),
    regions,
    candidates: candidatesOf(axes, regions, { apartDeg, most, drawn, hubPeriodDeg: hubPeriodDeg(corner) }),
    unmet: unmetWants(axes, wanted),
  };
}

async function measuredPairs(
  setup: Setup,
  { wants = {}, signal, onProgress }: StudyOptions,
): Promise<Pick<ClockingStudy, 'pairs' | 'profiles'>> {
  const pairs = [...studyPairs(setup, wants.leastMarginMm), ...(await fastenerPairs(setup))];
  const profiles: ProfiledPair[] = [];
  for (const [index, { pair }] of pairs.entries()) {
    signal?.throwIfAborted();
    profiles.push(profiled(index, pair));
    onProgress?.(index + 1, pairs.length);
    await breathe();
  }
  return { pairs, profiles };
}

/** The margin of each pair at two clockings, as the study has it. */
export const marginsAt = ({ pairs }: Pick<ClockingStudy, 'pairs'>, clockings: Clockings) =>
  pairs.map(({ about, pair }) => pair.at(angleOf(about, clockings)));
