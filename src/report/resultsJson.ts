import { CLEARANCE_KINDS } from '../clearance/clearance.ts';
import { assetRecords } from '../design/assets.ts';
import { shownPoint, shownRigid, shownSteer } from '../design/side.ts';
import { carriersOf } from '../layouts/layoutOf.ts';
import { type Rigid, toMatrix4 } from '../math/rigid.ts';
import { limitOwner } from '../sweep/limit.ts';
import { POSE_STATES } from '../sweep/result.ts';
import { jsonHead } from './jsonHead.ts';
import { carrierAt } from './placeInWords.ts';
import type { Checked } from './reportInput.ts';
import { rounded, roundedText, roundedTo } from './rounded.ts';
import { inputField, shownInput } from './steering.ts';
import { treatmentObject, uncheckedObject } from './zoneJson.ts';

const RESULTS_FORMAT = 'daylight.results';
const RESULTS_VERSION = 2;

const allRounded = (values: ArrayLike<number>) => Array.from(values, rounded);

/** Decimals of a matrix: they place a point within 1 m of the origin to 1e-9 mm. */
const ROTATION_DECIMALS = 12;
const TRANSLATION_MM_DECIMALS = 10;

/** Sixteen numbers of a 4x4 matrix by rows. */
const matrixNumbers = (t: Rigid) =>
  toMatrix4(t).map((value, at) =>
    roundedTo(value, at % 4 === 3 ? TRANSLATION_MM_DECIMALS : ROTATION_DECIMALS),
  );

/**
 * The whole sweep as JSON text, one line for each list: poses of every carrier and clearance of every pair at every step,
 * for the side of the corner. The format is described in public/results-format.md.
 */
export function resultsJson({ design, solids, result, findings }: Checked, version: string): string {
  const { side } = design.corner;
  const carriers = carriersOf(design.corner.suspension);
  const steps = result.poseState.length;
  const stepNumbers = Array.from({ length: steps }, (_, step) => step);
  const solved = (step: number) => POSE_STATES[result.poseState[step]] === 'solved';
  const poses = stepNumbers.map((step) =>
    solved(step)
      ? list(carriers, (carrier) =>
          JSON.stringify(matrixNumbers(shownRigid(side, carrierAt(design.corner, result, step, carrier)))),
        )
      : 'null',
  );
  const pairs = result.pairs.map((pair, index) => {
    const from = index * steps;
    const head = {
      a: solids[pair.a].id,
      b: solids[pair.b].id,
      moves: pair.moves,
      targetMm: rounded(pair.targetMm),
      targetOrigin: pair.targetOrigin,
      allowanceMm: rounded(pair.allowanceMm),
      ...treatmentObject(side, pair),
      state: stepNumbers.map((step) => LETTERS[CLEARANCE_KINDS[result.state[from + step]]]).join(''),
    };
    const { clearanceMm, errorMm, points } = result;
    const ifMeasured = (text: (at: number) => string) => (step: number) =>
      Number.isFinite(clearanceMm[from + step]) ? text(from + step) : 'null';
    const point = (at: number): string =>
      list(shownPoint(side, [points[at], points[at + 1], points[at + 2]]), roundedText).slice(1, -1);
    const lists = {
      clearanceMm: list(stepNumbers, (step) => roundedText(clearanceMm[from + step])),
      errorMm: list(
        stepNumbers,
        ifMeasured((at) => roundedText(errorMm[at])),
      ),
      pointsMm: list(
        stepNumbers,
        ifMeasured((at) => `[${point(6 * at)},${point(6 * at + 3)}]`),
      ),
    };
    const written = Object.entries(lists).map(([name, text]) => `,${JSON.stringify(name)}:${text}`);
    return `${JSON.stringify(head).slice(0, -1)}${written.join('')}}`;
  });
  const fields = {
    ...jsonHead(RESULTS_FORMAT, RESULTS_VERSION, version, result.designHash, design.corner),
    assets: assetRecords(design.assets),
    settings: result.settings,
    travelMm: allRounded(result.travelMm),
    steer: Array.from(result.steer, (steer) => rounded(shownSteer(side, steer))),
    ...inputField(
      design.corner,
      Array.from(result.steer, (steer) => rounded(shownInput(design.corner, steer))),
    ),
    poseState: stepNumbers.map((step) => POSE_STATES[result.poseState[step]][0]).join(''),
    roadWheelAngleDeg: Array.from(result.roadWheelAngleDeg, (value) => rounded(shownSteer(side, value))),
    residualMm: Array.from(result.residualMm, (mm) => (Number.isFinite(mm) ? mm : null)),
    carriers,
  };
  return objectOfLines(fields, {
    poses,
    parts: asJson(
      solids.map(({ id, label, kind, carrier, chordErrorMm }) => ({
        id,
        label,
        kind,
        carrier,
        chordErrorMm: rounded(chordErrorMm),
      })),
    ),
    pairs,
    limits: asJson(
      findings.limits.map((limit) => ({
        part: limitOwner(design.corner, limit),
        kind: limit.kind,
        unit: limit.unit,
        allowed: rounded(limit.allowed ?? Number.NaN),
        used: allRounded(limit.usedAtSteps),
      })),
    ),
    unchecked: asJson(result.unchecked.map((pair) => uncheckedObject(solids, pair))),
  });
}

/** First letters of the states; `-` for pending. */
const LETTERS: Record<(typeof CLEARANCE_KINDS)[number], string> = {
  pending: '-',
  separated: 's',
  touching: 't',
  overlapping: 'o',
  beyond: 'b',
  unknown: 'u',
};

const asJson = (items: readonly unknown[]): string[] => items.map((item) => JSON.stringify(item));

/** Joins the JSON texts of items to the JSON text of a list. */
function list<T>(items: Iterable<T>, textOf: (item: T) => string): string {
  const texts: string[] = [];
  for (const item of items) texts.push(textOf(item));
  return `[${texts.join(',')}]`;
}

/**
 * A JSON object with one field on a line, and one element on a line in the lists of `inLines`, whose elements are JSON
 * texts. Compact, but readable in an editor.
 */
function objectOfLines(fields: Record<string, unknown>, inLines: Record<string, readonly string[]>): string {
  const lines = [
    ...Object.entries(fields).map(([name, value]) => `${JSON.stringify(name)}:${JSON.stringify(value)}`),
    ...Object.entries(inLines).map(([name, items]) => `${JSON.stringify(name)}:[\n${items.join(',\n')}\n]`),
  ];
  return `{\n${lines.join(',\n')}\n}\n`;
}
