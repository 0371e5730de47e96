import type { MockupStudy } from '../../studies/mockup/mockup.ts';
import { jsonHead } from '../jsonHead.ts';
import { shownWheelAngleDeg } from '../pose.ts';
import { rounded } from '../rounded.ts';
import { slopeObject } from '../sensitivity/sensitivityJson.ts';
import { inputField, shownInput } from '../steering.ts';

const MOCKUP_FORMAT = 'daylight.mockup';
const MOCKUP_VERSION = 1;

/** A study as JSON text. The format is described in public/results-format.md. */
export function mockupJson({ design, gaps, suspects }: MockupStudy, version: string): string {
  const { corner, hash } = design;
  const reading = ({ mm, errorMm }: { mm: number; errorMm: number }) => ({
    mm: rounded(mm),
    errorMm: rounded(errorMm),
  });
  const object = {
    ...jsonHead(MOCKUP_FORMAT, MOCKUP_VERSION, version, hash, corner),
    gaps: gaps.map(({ entry, between: [a, b], pose, measured, predicted, differenceMm, ...gap }) => ({
      a,
      b,
      travelMm: rounded(pose.travelMm),
      ...inputField(corner, rounded(shownInput(corner, pose.steer))),
      roadWheelAngleDeg: rounded(shownWheelAngleDeg(corner, pose.roadWheelAngleDeg)),
      predicted: predicted === undefined ? null : reading(predicted),
      measured: reading(measured),
      differenceMm: differenceMm === undefined ? null : rounded(differenceMm),
      measuringErrorMm: rounded(gap.measuringErrorMm),
      isExplained: gap.isExplained ?? null,
      on: entry.on ?? null,
      by: entry.by ?? null,
      note: entry.note ?? null,
      effects: gap.effects.map(({ value, rate }) => ({
        value: value.field.name,
        both: slopeObject(rate.both),
        below: slopeObject(rate.below),
        above: slopeObject(rate.above),
      })),
    })),
    suspects: suspects.map(({ value, change, effectMm }) => ({
      value: value.field.name,
      quantity: value.field.kind,
      change: rounded(change),
      effectMm: gaps.map(({ index }) => rounded(effectMm.get(index) ?? 0)),
    })),
  };
  return `${JSON.stringify(object, null, 2)}\n`;
}
