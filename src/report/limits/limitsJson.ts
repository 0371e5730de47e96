import type { Design } from '../../design/design.ts';
import type { Bound } from '../../studies/limits/headroom.ts';
import type { LimitsStudy } from '../../studies/limits/limitsStudy.ts';
import type { ShownStops, Stop } from '../../studies/limits/stops.ts';
import type { EdgeStretch } from '../../studies/limits/usableRegion.ts';
import { limitOwner } from '../../sweep/limit.ts';
import { jsonHead } from '../jsonHead.ts';
import { limitObject } from '../limitJson.ts';
import { shownWheelAngleDeg } from '../pose.ts';
import { rounded } from '../rounded.ts';
import { inputField, shownInput } from '../steering.ts';
import { figuresObject } from './alignmentColumns.ts';

const FORMAT = 'daylight.limits';
const FORMAT_VERSION = 1;

const known = (value: number | undefined): number | null => (value === undefined ? null : rounded(value));

/** The study as JSON, for the corner's own side. `program`: version of the program. */
export function limitsJson(design: Design, study: LimitsStudy, program: string): string {
  const { corner, hash } = design;
  const json = {
    ...jsonHead(FORMAT, FORMAT_VERSION, program, hash, corner),
    ...(study.stops && stopObjects(study.stops)),
    ...(study.lockOuts && {
      lockOuts: study.lockOuts.map(({ end, beyond, isOpen, reason }) => ({
        end,
        beyond: rounded(beyond),
        isOpen,
        reason,
      })),
    }),
    alignment: study.alignment.steps.map(({ travelMm, steer, figures, reason }) => ({
      travelMm: rounded(travelMm),
      ...inputField(corner, rounded(shownInput(corner, steer))),
      ...(figures === undefined
        ? { reason }
        : {
            wheelAngleDeg: rounded(shownWheelAngleDeg(corner, figures.roadWheelAngleDeg)),
            ...Object.fromEntries(
              Object.entries(figuresObject(corner, figures)).map(([key, value]) => [
                key,
                known(value ?? undefined),
              ]),
            ),
          }),
    })),
  };
  return `${JSON.stringify(json, undefined, 2)}\n`;
}

function stopObjects(study: ShownStops) {
  const { setup, goal, asked, region, failing, always, stops } = study;
  const { corner } = setup.design;
  const boundObject = (bound: EdgeStretch['bound']) => {
    if (bound.kind === 'pair') {
      const { a, b } = setup.pairs[bound.pair];
      return { kind: bound.kind, a: setup.solids[a].id, b: setup.solids[b].id };
    }
    return bound.kind === 'limit'
      ? { kind: bound.limit.kind, part: limitOwner(corner, bound.limit) }
      : { kind: bound.kind };
  };
  const bounds = (all: readonly Bound[]) => all.map(boundObject);
  const stopObject = (stop: Stop | undefined) =>
    stop === undefined
      ? null
      : {
          kept: stop.kept,
          share: rounded(stop.share),
          ends: stop.ends.map(({ spacerMm, damperMm, wheelAngleDeg, ...end }) => ({
            ...end,
            spacerMm: known(spacerMm),
            damperMm: known(damperMm),
            wheelAngleDeg: wheelAngleDeg
              ? { asked: known(wheelAngleDeg.asked), kept: known(wheelAngleDeg.kept) }
              : null,
          })),
          turningCircleMm: known(stop.turningCircleMm),
          failing: bounds(stop.failing),
        };
  return {
    goal,
    asked,
    turningCircleMm: known(study.turningCircleMm),
    limits: study.findings.limits.map((limit) => limitObject(corner, limit)),
    failing: bounds(failing),
    always: bounds(always),
    region:
      region === undefined
        ? null
        : {
            share: rounded(region.share),
            edges: region.edges.map((edge) =>
              edge.map(({ bound, points }) => ({
                bound: boundObject(bound),
                points: points.map(({ travelMm, steer }) => ({
                  travelMm: rounded(travelMm),
                  ...inputField(corner, rounded(shownInput(corner, steer))),
                })),
              })),
            ),
          },
    stops: { lock: stopObject(stops.lock), travel: stopObject(stops.travel), both: stopObject(stops.both) },
  };
}
