import type { Corner } from '../../design/schema.ts';
import type { AssemblyStudy } from '../../studies/assembly/assembly.ts';
import type { LeastMargin } from '../../studies/clocking/axis.ts';
import { caliperFigures } from '../../studies/clocking/figures.ts';
import type { MountedCandidate } from '../../studies/clocking/studyMountings.ts';
import { type Clockings, MAX_MARGIN_MM } from '../../studies/clocking/studyPairs.ts';
import type { SweptCandidate } from '../../studies/clocking/sweepCandidates.ts';
import type { Unmet } from '../../studies/clocking/unmet.ts';
import { jsonHead } from '../jsonHead.ts';
import { limitObject } from '../limitJson.ts';
import { rounded } from '../rounded.ts';
import type { FitReport, ReportedMounting } from './fitText.ts';

const FIT_FORMAT = 'daylight.fit';
const FIT_VERSION = 3;

/**
 * The clocking study as JSON text, described in public/results-format.md. Angles in degrees, lengths in mm. A margin above
 * `mostMarginMm` is null, and so is its pair. `drawn`: the corner of the file.
 */
export function fitJson(drawn: { corner: Corner; hash: string }, fitted: FitReport, version: string): string {
  const { mounted, candidates, unmet, swept, reach, limits } = fitted;
  const order = swept?.map(({ candidate }) => candidate) ?? candidates;
  const object = {
    ...jsonHead(FIT_FORMAT, FIT_VERSION, version, drawn.hash, drawn.corner),
    mostMarginMm: MAX_MARGIN_MM,
    mountings: mounted.map(mountingObject),
    unmet: unmet.map((one) => ({
      ...unmetObject(one),
      mounting: one.mounting ?? null,
    })),
    limits: limits.map((limit) => limitObject(drawn.corner, limit)),
    candidates: order.map((candidate: MountedCandidate, k) => ({
      mounting: candidate.mounting,
      ...placeObject(mounted[candidate.mounting], candidate, candidate.least),
      swept: swept === undefined ? null : sweptObject(swept[k]),
      bolts: reach === undefined ? null : boltsObject(reach[k]),
    })),
  };
  return `${JSON.stringify(object, null, 2)}\n`;
}

function mountingObject(mounted: ReportedMounting) {
  const { mounting, study } = mounted;
  return {
    caliperMirrored: mounting.caliperMirrored,
    hubBoltsTurned: mounting.headsTurned,
    designHash: study.designHash,
    pairs: study.pairs.map(({ ids, names, about, targetMm, allowanceMm }, k) => ({
      between: ids,
      labels: names,
      follows: about,
      targetMm: rounded(targetMm),
      allowanceMm: rounded(allowanceMm),
      spans: study.profiles[k].profile.spans,
    })),
    asDrawn: placeObject(mounted, study.drawn, study.asDrawn),
    unchanging: marginObject(study.unchanging),
    regions: study.regions,
    unmet: study.unmet.map(unmetObject),
  };
}

const marginObject = ({ marginMm, errorMm, limitedBy }: LeastMargin) => ({
  marginMm: Number.isFinite(marginMm) ? rounded(marginMm) : null,
  errorMm: Number.isFinite(marginMm) ? rounded(errorMm) : null,
  pair: limitedBy < 0 ? null : limitedBy,
  known: !Number.isNaN(marginMm),
});

function placeObject({ setup, toLowerArm }: ReportedMounting, clockings: Clockings, least: LeastMargin) {
  const { bleedScrewDeg, bleedBelowTopMm, aheadMm } = caliperFigures(
    setup.design.corner,
    clockings.caliperDeg,
  );
  const arm = toLowerArm(clockings.caliperDeg);
  return {
    caliperDeg: clockings.caliperDeg,
    hubDeg: clockings.hubDeg,
    bleedScrewDeg: bleedScrewDeg === undefined ? null : rounded(bleedScrewDeg),
    bleedBelowTopMm: bleedBelowTopMm === undefined ? null : rounded(bleedBelowTopMm),
    aheadMm: rounded(aheadMm),
    toLowerArmMm: arm === undefined ? null : rounded(arm.clearanceMm),
    ...marginObject(least),
  };
}

const unmetObject = ({ wants, contradiction, best }: Unmet) => ({
  wants,
  contradiction,
  best: best === undefined ? null : { ...best.clockings, ...marginObject(best.least) },
});

const sweptObject = ({ worst, findings }: SweptCandidate<Clockings>) => ({
  verdict: findings.verdict,
  worst:
    worst === undefined
      ? null
      : {
          labels: worst.names,
          state: worst.finding.state,
          marginMm: rounded(worst.marginMm),
          errorMm: rounded(worst.errorMm),
          leastMarginMm: worst.leastMm === undefined ? null : rounded(worst.leastMm),
        },
});

/** The assembly study of a candidate: steps, and fasteners that cannot be reached. */
const boltsObject = ({ steps, unreachable, order, contradictions, underBody }: AssemblyStudy) => ({
  steps,
  contradictions,
  unreachable: unreachable.map(({ body, blocks, proposed }) => ({
    bolts: body.boltsId,
    index: body.index,
    stage: body.stage,
    end: body.end,
    label: body.label,
    blockedBy: [...new Set(blocks.map(({ partId }) => partId))],
    known: !blocks.some(({ clearanceMm }) => Number.isNaN(clearanceMm) || clearanceMm > 0),
    inAnotherOrder: proposed.kind === 'reached',
    handleDeg: proposed.kind === 'reached' ? (proposed.handleDeg ?? null) : null,
    reasons: proposed.kind === 'never' ? proposed.cycle.map(({ why }) => why) : [],
  })),
  order: order.steps,
  unknown: underBody,
});
