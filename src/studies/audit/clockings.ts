import { solvePose } from '../../mechanism/solvePose.ts';
import { SolidMaker } from '../../solids/catalogue.ts';
import { loadModeller } from '../../solids/modeller.ts';
import { entries } from '../../solids/wheelFrame.ts';
import { pairId, pairIdFrom } from '../../sweep/pair.ts';
import type { Setup } from '../../sweep/setUp.ts';
import { DesignProblems } from '../../units/problem.ts';
import { clockedDesign } from '../clocking/apply.ts';
import { hubPeriodDeg } from '../clocking/figures.ts';
import {
  type About,
  angleOf,
  type Clockings,
  drawnClockings,
  type StudyPair,
  studyPairs,
} from '../clocking/studyPairs.ts';
import type { AuditOptions, EngineResult, ToAudit } from './auditRequest.ts';
import { intendedBetween } from './intended.ts';
import { type Shared, sharedBetween } from './shared.ts';

/** Shared volume of a pair at a clocking of caliper and hub, at ride height. */
export interface ClockedShare {
  pair: ToAudit;
  clockings: Clockings;
  shared: Shared;
  /** The clocking study's result for the pair there. */
  engine(): EngineResult;
}

/**
 * Shared volumes of the audited pairs that depend on a clocking, at clockings all around. Each pair is audited by
 * itself, which includes the clockings at which the whole corner is clear. The corner is built again at each
 * clocking.
 */
export async function sharedAtClockings(
  setup: Setup,
  toAudit: readonly ToAudit[],
  stepDeg: number,
  { signal, onClocking }: Pick<AuditOptions, 'signal' | 'onClocking'>,
): Promise<{ shares: ClockedShare[]; clockings: number }> {
  const { design, solids, settings, mechanism } = setup;
  if (entries(design.corner, 'caliper').length === 0) return { shares: [], clockings: 0 };
  const studied = new Map(studyPairs(setup).map((pair) => [pairIdFrom(...pair.ids), pair]));
  const turning = toAudit.flatMap((pair) => {
    const study = studied.get(pairId(solids, pair));
    const turns = pair.checked !== undefined && study !== undefined && study.about !== 'none';
    return turns ? [{ pair, study }] : [];
  });
  const rideHeight = solvePose(mechanism, 0, 0);
  if (turning.length === 0 || rideHeight.kind !== 'solved') return { shares: [], clockings: 0 };
  const modeller = await loadModeller();
  const maker = new SolidMaker();
  const shares: ClockedShare[] = [];
  const clockings = clockingsOf(setup, new Set(turning.map(({ study }) => study.about)), stepDeg);
  for (const [done, [abouts, at]] of clockings.entries()) {
    signal?.throwIfAborted();
    onClocking?.(done, clockings.length);
    const clocked = await clockedSolids(maker, setup, at, settings.chordToleranceMm);
    if (clocked === undefined) continue;
    for (const { pair, study } of turning) {
      if (!abouts.includes(study.about)) continue;
      const [one, other] = [pair.a, pair.b].map((index) =>
        clocked.solids.find(({ id }) => id === solids[index].id),
      );
      if (one === undefined || other === undefined) continue;
      const intended = intendedBetween(clocked.corner, one, other);
      const [shared] = sharedBetween(modeller, [one, other], intended, [rideHeight]);
      shares.push({ pair, clockings: at, shared, engine: () => engineResultAt(study, at) });
    }
  }
  onClocking?.(clockings.length, clockings.length);
  return { shares, clockings: clockings.length };
}

/**
 * Clockings of the caliper through a full turn with the hub as in the file, then of the hub through one period with
 * the caliper as in the file.
 */
function clockingsOf(
  setup: Setup,
  abouts: ReadonlySet<About>,
  stepDeg: number,
): [readonly About[], Clockings][] {
  const drawn = drawnClockings(setup.design);
  const turnsOver = (periodDeg: number) =>
    Array.from({ length: Math.ceil(periodDeg / stepDeg) - 1 }, (_, k) => (k + 1) * stepDeg);
  const turned = (deg: number) => ((deg + 540) % 360) - 180;
  const byCaliper = turnsOver(360).map((deg): [readonly About[], Clockings] => [
    ['caliper', 'between'],
    { ...drawn, caliperDeg: turned(drawn.caliperDeg + deg) },
  ]);
  const byHub = turnsOver(hubPeriodDeg(setup.design.corner)).map((deg): [readonly About[], Clockings] => [
    ['hub'],
    { ...drawn, hubDeg: turned(drawn.hubDeg + deg) },
  ]);
  return [
    ...(abouts.has('caliper') || abouts.has('between') ? byCaliper : []),
    ...(abouts.has('hub') ? byHub : []),
  ];
}

/** Undefined if the corner is invalid at that clocking. */
async function clockedSolids(maker: SolidMaker, { design }: Setup, at: Clockings, chordToleranceMm: number) {
  try {
    const { corner } = clockedDesign(design, at);
    return { corner, solids: await maker.make(corner, chordToleranceMm) };
  } catch (error) {
    if (error instanceof DesignProblems) return undefined;
    throw error;
  }
}

/** The clearance is the study's margin plus target and allowances. */
function engineResultAt({ pair, about, targetMm, allowanceMm }: StudyPair, at: Clockings): EngineResult {
  const { kind, marginMm, errorMm } = pair.at(angleOf(about, at));
  if (kind !== 'separated') return { kind, isClear: kind === 'beyond' };
  return { kind, isClear: marginMm + targetMm + allowanceMm - errorMm > 0 };
}
