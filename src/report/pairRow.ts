import type { Extent } from '../clearance/contact.ts';
import type { Carrier } from '../design/schema.ts';
import type { PairFinding } from '../findings/findings.ts';
import { applyPoint, identity, invert } from '../math/rigid.ts';
import type { Vec3 } from '../math/vec.ts';
import type { Solid } from '../solids/solid.ts';
import type { Pair } from '../sweep/pair.ts';
import { stateInWords } from './content.ts';
import { decimal, type Figures, signedAngle } from './figures.ts';
import { carrierAt, placeInWords } from './placeInWords.ts';
import { shownRackMm, shownWheelAngleDeg } from './pose.ts';
import { nowhereBelowInWords } from './proven.ts';
import type { Checked } from './reportInput.ts';
import { isJoined, nothingElseInWords } from './treatment.ts';

/** A pair's worst case as text, the same wherever it is shown. Empty strings where there is nothing to say. */
export interface PairRow {
  finding: PairFinding;
  pair: Pair;
  labelA: string;
  labelB: string;
  name: string;
  /** With its mark; "joined" of two parts with nothing near outside their zones. */
  state: string;
  clearance: string;
  /** What is proved of every pose, errors taken off; empty without a proof. */
  nowhereBelow: string;
  target: string;
  allowance: string;
  margin: string;
  travel: string;
  rack: string;
  wheelAngle: string;
  placeA: string;
  placeB: string;
  /** Of a touching pair: how far contact can reach in the wheel's axes, and the volume that both take up. */
  contact: string;
  shared: string;
}

export const pairName = (solids: readonly Solid[], pair: { a: number; b: number }): string =>
  `${solids[pair.a].label} ↔ ${solids[pair.b].label}`;

/** The rows of all findings, in their order. */
export const pairRows = (checked: Checked, figures: Figures): PairRow[] =>
  checked.findings.pairs.map((finding) => pairRow(checked, finding, figures));

function pairRow(checked: Checked, finding: PairFinding, figures: Figures): PairRow {
  const { design, solids, result, contacts } = checked;
  const pair = result.pairs[finding.pair];
  const { corner } = design;
  const [a, b] = [solids[pair.a], solids[pair.b]];
  const { worst } = finding;
  const contact = contacts.get(finding.pair);
  const row: PairRow = {
    finding,
    pair,
    labelA: a.label,
    labelB: b.label,
    name: pairName(solids, pair),
    state: finding.state === 'far' && isJoined(pair) ? 'joined' : stateInWords(finding.state),
    clearance: '',
    nowhereBelow: nowhereBelowInWords(checked, finding, figures),
    target: figures.given(pair.targetMm),
    allowance: figures.given(pair.allowanceMm),
    margin: '',
    travel: '',
    rack: '',
    wheelAngle: '',
    placeA: '',
    placeB: '',
    contact: '',
    shared: '',
  };
  if (worst === undefined) {
    if (finding.state !== 'far') return { ...row, clearance: 'unknown' };
    const { limitMm } = result.settings;
    return {
      ...row,
      clearance: isJoined(pair) ? nothingElseInWords(limitMm, figures) : `at least ${figures.least(limitMm)}`,
      margin: `at least ${figures.least(limitMm - pair.targetMm - pair.allowanceMm)}`,
    };
  }
  // A fit pair is told at ride height, where every carrier's frame is the vehicle's own.
  const rideFromPose = pair.moves ? identity() : invert(carrierAt(worst, 0, a.carrier));
  const vehicleFromUpright = pair.moves ? carrierAt(worst, 0, 'upright') : identity();
  const place = (carrier: Carrier, point: Vec3) =>
    placeInWords(corner, carrier, vehicleFromUpright, applyPoint(rideFromPose, point), figures);
  return {
    ...row,
    clearance: figures.withError(worst.clearanceMm, worst.errorMm),
    margin: figures.margin(worst.marginMm, worst.errorMm),
    travel: figures.signedPlace(worst.travelMm),
    rack: figures.signedPlace(shownRackMm(corner, worst.steer)),
    wheelAngle: signedAngle(shownWheelAngleDeg(corner, worst.roadWheelAngleDeg)),
    placeA: place(a.carrier, worst.pointA),
    placeB: place(b.carrier, worst.pointB),
    contact: contact === undefined ? '' : reachInWords(contact.reach, figures),
    shared: contact?.sharedVolumeMm3 === undefined ? '' : figures.volume(contact.sharedVolumeMm3),
  };
}

/** "X −12.3 to +4.0, depth −3.1 to +0.2, Z +101.0 to +120.4 mm": from the wheel's axis and the hub face. */
function reachInWords({ low, high }: Extent, figures: Figures): string {
  const [x, depth, z] = low.map((from, k) => figures.span(from, high[k]));
  return `X ${x}, depth ${depth}, Z ${z} ${figures.unit}`;
}

/** What could not be told of a pair, at a share of the steps or between them, in words; empty where all could. */
export function unknownInWords(finding: PairFinding, solvedSteps: number): string {
  if (finding.unknownSteps === 0)
    return finding.state === 'unknown' && solvedSteps > 0 ? 'not proven between the steps' : '';
  const share = decimal((100 * finding.unknownSteps) / Math.max(1, solvedSteps), 0);
  return `could not be told at ${finding.unknownSteps} of ${solvedSteps} poses (${share} %)`;
}
