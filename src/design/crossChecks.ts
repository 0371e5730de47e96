import type { Problem } from '../units/problem.ts';
import { assumedExist } from './checks/assumedChecks.ts';
import { boltedPartsExist, boltFieldsApply, toolsFitOver } from './checks/boltChecks.ts';
import {
  caliperSpansRotor,
  dimensionOrder,
  rodEndShank,
  shapesHaveSize,
  wheelPlaced,
} from './checks/dimensionChecks.ts';
import { fixedExist } from './checks/fixedChecks.ts';
import { hardpointChecks } from './checks/hardpointChecks.ts';
import { layoutChecks } from './checks/layoutChecks.ts';
import { linkChecks } from './checks/linkChecks.ts';
import { mockupPoses, neededParts, pairRules, singleParts, uniqueIds } from './checks/relationChecks.ts';
import { type Check, runChecks } from './checks/report.ts';
import { COVERING_CHECKS } from './coveringChecks.ts';
import type { Readable } from './readable.ts';

const CHECKS: readonly Check[] = [
  hardpointChecks,
  layoutChecks,
  linkChecks,
  uniqueIds,
  singleParts,
  neededParts,
  wheelPlaced,
  dimensionOrder,
  caliperSpansRotor,
  rodEndShank,
  shapesHaveSize,
  ...COVERING_CHECKS.map(({ check }) => check),
  boltedPartsExist,
  boltFieldsApply,
  toolsFitOver,
  pairRules,
  mockupPoses,
  assumedExist,
  fixedExist,
];

/** Problems between fields that are each valid. */
export const crossChecks = (file: Readable): Problem[] => runChecks(file, CHECKS);
