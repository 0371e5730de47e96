import type { Design } from '../../design/design.ts';
import type { AlignmentStudy } from '../../studies/limits/alignmentStudy.ts';
import { jsonHead } from '../jsonHead.ts';
import { shownWheelAngleDeg } from '../pose.ts';
import { rounded } from '../rounded.ts';
import { inputField, shownInput } from '../steering.ts';
import { figuresObject } from './alignmentColumns.ts';

const FORMAT = 'daylight.limits';
const FORMAT_VERSION = 1;

/** The study as JSON, for the corner's own side. `program`: version of the program. */
export function limitsJson({ corner, hash }: Design, alignment: AlignmentStudy, program: string): string {
  const json = {
    ...jsonHead(FORMAT, FORMAT_VERSION, program, hash, corner),
    alignment: alignment.steps.map(({ travelMm, steer, figures, reason }) => ({
      travelMm: rounded(travelMm),
      ...inputField(corner, rounded(shownInput(corner, steer))),
      ...(figures === undefined
        ? { reason }
        : {
            wheelAngleDeg: rounded(shownWheelAngleDeg(corner, figures.roadWheelAngleDeg)),
            ...Object.fromEntries(
              Object.entries(figuresObject(corner, figures)).map(([key, value]) => [
                key,
                value === null ? null : rounded(value),
              ]),
            ),
          }),
    })),
  };
  return `${JSON.stringify(json, undefined, 2)}\n`;
}
