import type { Extent } from '../clearance/contact.ts';
import type { Carrier } from '../design/schema.ts';
import type { PairFinding } from '../findings/findings.ts';
import { applyPoint, identity, invert } from '../math/rigid.ts';
import type { Vec3 } from '../math/vec.ts';
import { type Pair, pairLabel } from '../sweep/pair.ts';
import { stateInWords } from './content.ts';
import { decimal, type Figures, signedAngle } from './figures.ts';
import { isWithinOf } from './measuringError/measuringErrorInWords.ts';
import { carrierAt, placeInWords } from './placeInWords.ts';
import { shownWheelAngleDeg } from './pose.ts';
import { nowhereBelowInWords } from './proven.ts';
import type { Checked, ReportInput } from './reportInput.ts';
import { shownInput, steeringFigures } from './steering.ts';
import { isJoined, nothingElseInWords } from './treatment.ts';

/** Worst case of a pair as text for every table. A string is empty if it does not apply. */
export interface PairRow {
  finding: PairFinding;
  pair: Pair;
  labelA: string;
  labelB: string;
  name: string;
  /** State with its mark; "joined" for two joined parts that are far outside their zones. */
  state: string;
  clearance: string;
  /** Proven lower bound over every pose, errors subtracted; empty without a proof. */
  nowhereBelow: string;
  target: string;
  allowance: string;
  margin: string;
  travel: string;
  steer: string;
  wheelAngle: string;
  placeA: string;
  placeB: string;
  /** Extent of the contact in the wheel's axes, and the shared volume; empty unless the pair touches. */
  contact: string;
  shared: string;
}

/** A row with its number in the report. */
export interface NumberedRow {
  row: PairRow;
  number: string;
}

/** The rows of a report, numbered in the order of the findings. */
export const numberedRows = (
  checked: Checked & Pick<ReportInput, 'measuringError'>,
  figures: Figures,
): NumberedRow[] =>
  pairRows(checked, figures).map((row, index) => {
    const [a, b] = [row.pair.a, row.pair.b].map((solid) => checked.solids[solid].id);
    const within = isWithinOf(checked.measuringError, a, b) ? ', within measuring error' : '';
    return { row: { ...row, state: `${row.state}${within}` }, number: String(index + 1) };
  });

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
    name: pairLabel(solids, pair),
    state: finding.state === 'far' && isJoined(pair) ? 'joined' : stateInWords(finding.state),
    clearance: '',
    nowhereBelow: nowhereBelowInWords(checked, finding, figures),
    target: figures.given(pair.targetMm),
    allowance: figures.given(pair.allowanceMm),
    margin: '',
    travel: '',
    steer: '',
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
  // A fit pair is shown at ride height, where every carrier's frame is that of the vehicle.
  const rideFromPose = pair.moves ? identity() : invert(carrierAt(corner, worst, 0, a.carrier));
  const vehicleFromUpright = pair.moves ? carrierAt(corner, worst, 0, 'upright') : identity();
  const place = (carrier: Carrier, point: Vec3) =>
    placeInWords(corner, carrier, vehicleFromUpright, applyPoint(rideFromPose, point), figures);
  return {
    ...row,
    clearance: figures.withError(worst.clearanceMm, worst.errorMm),
    margin: figures.margin(worst.marginMm, worst.errorMm),
    travel: figures.signedPlace(worst.travelMm),
    steer: steeringFigures(corner, figures).signed(shownInput(corner, worst.steer)),
    wheelAngle: signedAngle(shownWheelAngleDeg(corner, worst.roadWheelAngleDeg)),
    placeA: place(a.carrier, worst.pointA),
    placeB: place(b.carrier, worst.pointB),
    contact: contact === undefined ? '' : reachInWords(contact.reach, figures),
    shared: contact?.sharedVolumeMm3 === undefined ? '' : figures.volume(contact.sharedVolumeMm3),
  };
}

/** "X −12.3 to +4.0, depth −3.1 to +0.2, Z +101.0 to +120.4 mm", from the wheel axis and the hub face. */
function reachInWords({ low, high }: Extent, figures: Figures): string {
  const [x, depth, z] = low.map((from, k) => figures.span(from, high[k]));
  return `X ${x}, depth ${depth}, Z ${z} ${figures.unit}`;
}

/** Poses at which a pair is unknown, as text; empty if there are none. */
export function unknownInWords(finding: PairFinding, solvedSteps: number): string {
  if (finding.unknownSteps === 0)
    return finding.state === 'unknown' && solvedSteps > 0 ? 'not proven between the steps' : '';
  const share = decimal((100 * finding.unknownSteps) / Math.max(1, solvedSteps), 0);
  return `unknown at ${finding.unknownSteps} of ${solvedSteps} poses (${share} %)`;
}
