import { pathText } from '../../design/path.ts';
import type { AlignmentFigures } from '../../studies/remedy/alignmentFigures.ts';
import type { Change } from '../../studies/remedy/changedFile.ts';
import { clearsAll } from '../../studies/remedy/ranking.ts';
import type { Remedies } from '../../studies/remedy/remedy.ts';
import type { Reason } from '../../studies/remedy/verify.ts';
import type { PairTrial } from '../../studies/vary/pairTrial.ts';
import { limitOwner } from '../../sweep/limit.ts';
import type { Problem } from '../../units/problem.ts';
import { jsonHead } from '../jsonHead.ts';
import { rounded } from '../rounded.ts';
import { pairObject } from '../varied/variedJson.ts';
import { reasonText } from './remedyText.ts';

const REMEDY_FORMAT = 'daylight.remedy';
const REMEDY_VERSION = 1;

const changeObject = ({ choices: { input, from, step, isBought }, to, typed }: Change) => ({
  value: input.field.name,
  path: pathText(input.field.path),
  quantity: input.field.kind,
  from: rounded(from),
  to: rounded(to),
  typed,
  step: rounded(step),
  bought: isBought,
});

/** The figures of an alignment, `null` where one is not known. */
const alignmentObject = (alignment: AlignmentFigures) =>
  Object.fromEntries(
    Object.entries(alignment).map(([name, value]: [string, number | undefined]) => [
      name,
      rounded(value ?? Number.NaN),
    ]),
  );

const problemObject = ({ path, found, message }: Problem) => ({ path, found, message });

const reasonObject = (reason: Reason) => ({ kind: reason.kind, text: reasonText(reason) });

/** A pair of another part by its ids, with its state and least margin. */
const nameObject = ({ a, b, state }: PairTrial) => ({ a, b, state });

/** A study as JSON text, for the side of the corner. The format is described in public/results-format.md. */
export function remedyJson(study: Remedies, version: string): string {
  const { setup, hits, noHit, unknown, notBuilt, alignment, freeCount, fixedCount } = study;
  const { design, settings } = setup;
  const { corner, hash } = design;
  const object = {
    ...jsonHead(REMEDY_FORMAT, REMEDY_VERSION, version, hash, corner),
    settings,
    freeCount,
    fixedCount,
    alignment: alignmentObject(alignment),
    noHit: noHit === undefined ? null : nameObject(noHit),
    unknown: unknown.map(nameObject),
    notBuilt: notBuilt.map(({ field, problems }) => ({
      value: field.name,
      problems: problems.map(problemObject),
    })),
    hits: hits.map(({ before, hasSlopes, remedies, refused }) => ({
      pair: pairObject(corner, before),
      hasSlopes,
      remedies: remedies.map((remedy) => ({
        changes: remedy.changes.map(changeObject),
        clearsAll: clearsAll(remedy),
        pair: pairObject(remedy.corner, remedy.after),
        failing: remedy.failing.map(nameObject),
        newlyFailing: remedy.newlyFailing.map(nameObject),
        newlyUnknown: remedy.newlyUnknown.map(nameObject),
        binding: remedy.binding.map((limit) => ({ part: limitOwner(corner, limit), kind: limit.kind })),
        others: remedy.others.map(({ before: { a, b, state }, after, gainMm }) => ({
          a,
          b,
          stateBefore: state,
          stateAfter: after.state,
          gainMm: rounded(gainMm ?? Number.NaN),
        })),
        alignment: alignmentObject(remedy.alignment),
      })),
      refused: refused.map(({ changes, reasons }) => ({
        changes: changes.map(changeObject),
        reasons: reasons.map(reasonObject),
      })),
    })),
  };
  return `${JSON.stringify(object, null, 2)}\n`;
}
