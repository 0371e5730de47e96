import { assetRecords } from '../design/assets.ts';
import { shownPoint } from '../design/side.ts';
import type { PairContact } from '../findings/contactsOf.ts';
import type { PairFinding } from '../findings/findings.ts';
import { jsonHead } from './jsonHead.ts';
import { limitObject } from './limitJson.ts';
import { shownInputRange } from './lockedOut.ts';
import { shownWheelAngleDeg } from './pose.ts';
import { provenAtLeastMm } from './proven.ts';
import { stepBlocks } from './ranges.ts';
import type { Checked } from './reportInput.ts';
import { rounded } from './rounded.ts';
import { inputField, shownInput } from './steering.ts';
import { treatmentCounts } from './treatment.ts';
import { treatmentObject, uncheckedObject } from './zoneJson.ts';

const FINDINGS_FORMAT = 'daylight.findings';
const FINDINGS_VERSION = 3;

/**
 * The findings as JSON text: verdict and worst case of each pair, least margin first, for the side of the corner. The
 * format is described in public/results-format.md.
 */
export function findingsJson(checked: Checked, version: string): string {
  const { design, result } = checked;
  const object = {
    ...jsonHead(FINDINGS_FORMAT, FINDINGS_VERSION, version, result.designHash, design.corner),
    ...findingsObject(checked),
  };
  return `${JSON.stringify(object, null, 2)}\n`;
}

/** The fields of the findings. */
export function findingsObject(checked: Checked) {
  const { design, solids, result, findings } = checked;
  const { corner } = design;
  const input = (steerIndex: number) => rounded(shownInput(corner, result.steer[steerIndex]));
  return {
    assets: assetRecords(design.assets),
    settings: result.settings,
    provenBetweenSteps: findings.lockedOut !== undefined && findings.counts.unknown === 0,
    verdict: findings.verdict,
    counts: findings.counts,
    treatments: treatmentCounts(result.pairs, findings.unchecked),
    steps: result.poseState.length,
    solvedSteps: findings.solvedSteps,
    pairs: findings.pairs.map((finding) => pairObject(checked, finding)),
    limitCounts: findings.limitCounts,
    limits: findings.limits.map((limit) => limitObject(corner, limit, result)),
    unreachable: stepBlocks(findings.unreachableSteps, result.steer.length).map((block) => ({
      travelMm: [rounded(result.travelMm[block.travelFrom]), rounded(result.travelMm[block.travelTo])],
      ...inputField(corner, [input(block.steerFrom), input(block.steerTo)]),
    })),
    lockedOut:
      findings.lockedOut?.map((part) => ({
        travelMm: part.travelMm.map(rounded),
        ...inputField(corner, shownInputRange(corner, part).map(rounded)),
        reachedInPart: !part.whole,
        why: part.reason ?? null,
      })) ?? null,
    unchecked: findings.unchecked.map((pair) => uncheckedObject(solids, pair)),
    assumedInputs: design.inputs.filter(({ assumed }) => assumed).map(({ path }) => path),
  };
}

function pairObject(checked: Checked, finding: PairFinding) {
  const { design, solids, result, contacts } = checked;
  const { pair: index, state, worst, unknownSteps } = finding;
  const pair = result.pairs[index];
  const { corner } = design;
  const contact = contacts.get(index);
  const point = (p: readonly [number, number, number]) => shownPoint(corner.side, p).map(rounded);
  return {
    a: solids[pair.a].id,
    b: solids[pair.b].id,
    labels: [solids[pair.a].label, solids[pair.b].label],
    moves: pair.moves,
    state,
    targetMm: rounded(pair.targetMm),
    targetOrigin: pair.targetOrigin,
    allowanceMm: rounded(pair.allowanceMm),
    ...treatmentObject(corner.side, pair),
    unknownSteps,
    provenAtLeastMm: rounded(provenAtLeastMm(checked, finding) ?? Number.NaN),
    worst:
      worst === undefined
        ? null
        : {
            clearanceMm: rounded(worst.clearanceMm),
            errorMm: rounded(worst.errorMm),
            marginMm: rounded(worst.marginMm),
            atStep: result.travelMm.includes(worst.travelMm) && result.steer.includes(worst.steer),
            travelMm: rounded(worst.travelMm),
            ...inputField(corner, rounded(shownInput(corner, worst.steer))),
            roadWheelAngleDeg: rounded(shownWheelAngleDeg(corner, worst.roadWheelAngleDeg)),
            pointA: point(worst.pointA),
            pointB: point(worst.pointB),
            contact: contact === undefined ? null : contactObject(contact),
          },
  };
}

/** Contact in the wheel's axes. They are mirrored with the corner, so the numbers are the same for either side. */
function contactObject({ lengthMm, sharedVolumeMm3, reach: { low, high } }: PairContact) {
  const [xMm, depthMm, zMm] = low.map((from, k) => [rounded(from), rounded(high[k])]);
  return {
    lengthMm: rounded(lengthMm),
    sharedVolumeMm3: sharedVolumeMm3 === undefined ? null : rounded(sharedVolumeMm3),
    xMm,
    depthMm,
    zMm,
  };
}
