import type { Design } from '../../design/design.ts';
import type { LeastMargin } from '../../studies/clocking/axis.ts';
import { leastAt } from '../../studies/clocking/candidates.ts';
import { caliperFigures } from '../../studies/clocking/figures.ts';
import { type Clockings, MOST_MARGIN_MM } from '../../studies/clocking/studyPairs.ts';
import type { SweptCandidate } from '../../studies/clocking/sweepCandidates.ts';
import { jsonHead } from '../jsonHead.ts';
import { rounded } from '../resultsJson.ts';
import type { FitTold } from './fitText.ts';

export const FIT_FORMAT = 'daylight.fit';
export const FIT_VERSION = 1;

/**
 * The clocking study as JSON text. Angles in degrees, lengths in mm. A margin is null where it is above `mostMarginMm`, a
 * pair null where none is nearer. The format is described in public/results-format.md.
 */
export function fitJson(design: Design, told: FitTold, version: string): string {
  const { study, toLowerArm, swept } = told;
  const { corner } = design;
  const margin = ({ marginMm, errorMm, limitedBy }: LeastMargin) => ({
    marginMm: Number.isFinite(marginMm) ? rounded(marginMm) : null,
    errorMm: Number.isFinite(marginMm) ? rounded(errorMm) : null,
    pair: limitedBy < 0 ? null : limitedBy,
    known: !Number.isNaN(marginMm),
  });
  const place = (clockings: Clockings) => {
    const { bleedScrewDeg, aheadMm } = caliperFigures(corner, clockings.caliperDeg);
    const arm = toLowerArm(clockings.caliperDeg);
    return {
      caliperDeg: clockings.caliperDeg,
      hubDeg: clockings.hubDeg,
      bleedScrewDeg: bleedScrewDeg === undefined ? null : rounded(bleedScrewDeg),
      aheadMm: rounded(aheadMm),
      toLowerArmMm: arm === undefined ? null : rounded(arm.clearanceMm),
      ...margin(leastAt(study.axes, clockings)),
    };
  };
  const object = {
    ...jsonHead(FIT_FORMAT, FIT_VERSION, version, study.designHash, corner),
    mostMarginMm: MOST_MARGIN_MM,
    pairs: study.pairs.map(({ ids, names, about, targetMm, allowanceMm }, k) => ({
      between: ids,
      labels: names,
      follows: about,
      targetMm: rounded(targetMm),
      allowanceMm: rounded(allowanceMm),
      spans: study.profiles[k].profile.spans,
    })),
    asDrawn: place(study.drawn),
    unchanging: margin(study.unchanging),
    regions: study.regions,
    unmet: study.unmet.map(({ wants, contradiction, best }) => ({
      wants,
      contradiction,
      best: best === undefined ? null : { ...best.clockings, ...margin(best.least) },
    })),
    candidates: (swept?.map(({ candidate }) => candidate) ?? study.candidates).map((candidate, k) => ({
      ...place(candidate),
      swept: swept === undefined ? null : sweptObject(swept[k]),
    })),
  };
  return `${JSON.stringify(object, null, 2)}\n`;
}

const sweptObject = ({ worst, findings }: SweptCandidate<Clockings>) => ({
  verdict: findings.verdict,
  worst:
    worst === undefined
      ? null
      : { labels: worst.names, state: worst.finding.state, leastMarginMm: rounded(worst.marginMm) },
});
