import { headsInCounterbores } from './checks/boltChecks.ts';
import {
  hatBoltsInFlange,
  mountBoltsClearSpigot,
  nutsClearPilot,
  spacersHoldBolts,
  studsInWheel,
} from './checks/boltPatternChecks.ts';
import { hubFlangesApart } from './checks/dimensionChecks.ts';
import { damperLengthCheck } from './checks/hardpointChecks.ts';
import { tyreFitsWheel } from './checks/relationChecks.ts';
import type { Check } from './checks/report.ts';
import {
  flangeInHat,
  pilotInBores,
  spigotInBores,
  spokesClearStack,
  stackInsideBarrel,
} from './checks/stackChecks.ts';

/** A check of dimensions, and the pairs of solids whose contact it detects. */
export interface CoveringCheck {
  /** Name in the report and in results files. */
  name: string;
  check: Check;
  /** Kinds of the two solids. A spacer is one under the wheel, or one behind the bearing housing. */
  pairs: readonly (readonly [string, string])[];
}

/** Checks that replace the measurement of pairs that are clamped together or are bodies of one part. */
export const COVERING_CHECKS: readonly CoveringCheck[] = [
  {
    name: 'pilot in bores',
    check: pilotInBores,
    pairs: [
      ['hub', 'rotor'],
      ['hub', 'spacer'],
      ['hub', 'wheel'],
    ],
  },
  { name: 'flange in hat', check: flangeInHat, pairs: [['hub', 'rotor']] },
  { name: 'studs in wheel holes', check: studsInWheel, pairs: [['hub', 'wheel']] },
  {
    name: 'bolts in spacer rings',
    check: spacersHoldBolts,
    pairs: [
      ['hub', 'spacer'],
      ['bolts', 'spacer'],
    ],
  },
  { name: 'hat bolts in flange', check: hatBoltsInFlange, pairs: [['bolts', 'hub']] },
  {
    name: 'bolt heads in counterbores',
    check: headsInCounterbores,
    pairs: [
      ['bearingHousing', 'bolts'],
      ['bolts', 'caliper'],
      ['bolts', 'hub'],
      ['bolts', 'rotor'],
      ['bolts', 'upright'],
    ],
  },
  { name: 'wheel nuts beside pilot', check: nutsClearPilot, pairs: [['bolts', 'hub']] },
  {
    name: 'spokes clear of hub, hat and spacers',
    check: spokesClearStack,
    pairs: [
      ['hub', 'wheel'],
      ['rotor', 'wheel'],
      ['spacer', 'wheel'],
    ],
  },
  {
    name: 'hub, hat and spacers inside barrel',
    check: stackInsideBarrel,
    pairs: [
      ['hub', 'wheel'],
      ['rotor', 'wheel'],
      ['spacer', 'wheel'],
    ],
  },
  {
    name: 'spigot in bores',
    check: spigotInBores,
    pairs: [
      ['bearingHousing', 'spacer'],
      ['bearingHousing', 'upright'],
    ],
  },
  { name: 'mount bolts beside spigot', check: mountBoltsClearSpigot, pairs: [['bearingHousing', 'bolts']] },
  { name: 'rim diameter of tyre', check: tyreFitsWheel, pairs: [['tyre', 'wheel']] },
  { name: 'hub flanges apart', check: hubFlangesApart, pairs: [['bearingHousing', 'hub']] },
  { name: 'damper length', check: damperLengthCheck, pairs: [['damperBody', 'damperRod']] },
];

/** Names of the checks of dimensions that cover a pair of solids of two kinds, in either order. */
export const coveringChecks = (kindA: string, kindB: string): string[] =>
  COVERING_CHECKS.filter(({ pairs }) =>
    pairs.some(([one, other]) => (one === kindA && other === kindB) || (one === kindB && other === kindA)),
  ).map(({ name }) => name);
