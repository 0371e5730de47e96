import { assumedExist } from './checks/assumedChecks.ts';
import { boltsHold, boltsKnown, toolsGoRound } from './checks/boltChecks.ts';
import {
  caliperSpansRotor,
  dimensionOrder,
  rodEndShank,
  shapesWithSize,
  wheelPlaced,
} from './checks/dimensionChecks.ts';
import { hardpointChecks } from './checks/hardpointChecks.ts';
import { neededParts, pairRules, singleParts, uniqueIds } from './checks/relationChecks.ts';
import { type Check, runChecks } from './checks/report.ts';
import { COVERING_CHECKS } from './coveringChecks.ts';
import type { Problem } from './problem.ts';
import type { Readable } from './readable.ts';

const CHECKS: readonly Check[] = [
  hardpointChecks,
  uniqueIds,
  singleParts,
  neededParts,
  wheelPlaced,
  dimensionOrder,
  caliperSpansRotor,
  rodEndShank,
  shapesWithSize,
  ...COVERING_CHECKS.map(({ check }) => check),
  boltsHold,
  boltsKnown,
  toolsGoRound,
  pairRules,
  assumedExist,
];

/** What fields that are each sound on their own contradict in each other. */
export const crossChecks = (file: Readable): Problem[] => runChecks(file, CHECKS);
