/**
 * Published and computed tilts of spherical joints. The source is beside each row; "from memory" if no page was read.
 */
import { describe, expect, it } from 'vitest';
import type { RackLinkage } from '../../src/layouts/doubleWishboneRack/linkage.ts';
import { identity, rotationAbout } from '../../src/math/rigid.ts';
import { normalize, sub, type Vec3 } from '../../src/math/vec.ts';
import { type JointAxes, tiltAtBallFaceDeg, tiltAtShaftDeg, tiltDeg } from '../../src/mechanism/jointTilt.ts';
import { prepareMechanism } from '../../src/mechanism/mechanism.ts';
import type { Carriers } from '../../src/mechanism/pose.ts';
import { solved } from '../mechanism/solved.ts';
import { HMMWV } from './mechanismHardpoints.ts';

/** Part, ball width, housing width, ball diameter, published tilt to each side. Millimetres, or inches. */
type Row = readonly [
  part: string,
  ballWidth: number,
  housingWidth: number,
  ball: number,
  publishedDeg: number,
];

/** china-bearingfactory.com/product/ge-4-e (all values read there). */
const GE_4_E: Row[] = [['GE 4 E', 5, 3, 8, 16]];
/** C&H table of maintenance-free rod ends (angle, both widths); ball diameters from memory of ISO 12240-4, series K. */
const ROD_ENDS: Row[] = [
  ['POS6EC', 9, 6.75, 12.7, 13],
  ['POS8EC', 12, 9, 15.875, 14],
  ['POS10EC', 14, 10.5, 19.05, 13],
  ['POS12EC', 16, 12, 22.225, 13],
  ['POS14EC', 19, 13.5, 25.4, 16],
  ['POS16EC', 21, 15, 28.575, 15],
  ['POS20ECL', 25, 18, 34.925, 14],
  ['POS22ECL', 28, 20, 38.1, 15],
];
/** ISO 12240-1 series E, from memory. */
const SERIES_E: Row[] = [
  ['GE10E', 9, 6, 16, 12],
  ['GE20ES', 16, 12, 29, 9],
  ['GE25ES', 20, 16, 35.5, 7],
  ['GE30ES', 22, 18, 40.7, 6],
];
/** chenghuibearing.com. */
const GEK: Row[] = [['GEK40XS-2RS', 64, 44, 80, 19]];
/** ISO 12240-1 series G, from memory. */
const SERIES_G: Row[] = [
  ['GEG12', 15, 9, 22, 18],
  ['GEG15', 16, 10, 25, 16],
  ['GEG17', 20, 12, 29, 19],
  ['GEG20', 25, 16, 35.5, 17],
  ['GEG25', 28, 18, 40.7, 17],
  ['GEG30', 32, 20, 47, 17],
];
/** Makers' inch tables, from memory; these round to the nearest degree. */
const INCH: Row[] = [
  ['COM3', 0.281, 0.218, 0.406, 11],
  ['COM4', 0.343, 0.25, 0.5, 13],
  ['COM5', 0.375, 0.281, 0.562, 12],
  ['COM8', 0.5, 0.39, 0.781, 10],
  ['COM10', 0.625, 0.5, 0.968, 9],
  ['COM12', 0.75, 0.593, 1.187, 9],
];

describe('tilt at which the ball face meets the housing', () => {
  it.each([...GE_4_E, ...ROD_ENDS, ...SERIES_E, ...GEK, ...SERIES_G])(
    '%s: the table gives its whole degrees',
    (_, ballWidth, housingWidth, ball, publishedDeg) => {
      expect(Math.floor(tiltAtBallFaceDeg(ball, housingWidth, ballWidth))).toBe(publishedDeg);
    },
  );

  it.each(INCH)('%s: the table agrees within a degree', (_, ballWidth, housingWidth, ball, publishedDeg) => {
    expect(Math.abs(tiltAtBallFaceDeg(ball, housingWidth, ballWidth) - publishedDeg)).toBeLessThan(1);
  });
});

describe('tilt at which a shaft meets the housing', () => {
  it('is 23.1301 degrees for a ball of 31.75, a housing of 15.875 and a spacer of 19.05 mm', () => {
    // Computed: acos(0.6) - asin(0.5).
    expect(tiltAtShaftDeg(31.75, 15.875, 19.05)).toBeCloseTo(23.1301, 4);
  });

  it('is negative if the shaft does not pass through the housing', () => {
    // Ball of 20, housing of 16: the hole between its edges is sqrt(20² - 16²) = 12 wide.
    expect(tiltAtShaftDeg(20, 16, 12)).toBeCloseTo(0, 12);
    expect(tiltAtShaftDeg(20, 16, 12.5)).toBeLessThan(0);
  });
});

const turned = (about: Vec3, degrees: number) => rotationAbout([0, 0, 0], about, (degrees * Math.PI) / 180);

describe('tilt of two axes', () => {
  const axes: JointAxes = {
    bolt: { carrier: 'upright', direction: [0, 0, 1] },
    housing: { carrier: 'lowerArm', direction: [0, 0, 1] },
  };
  const at = (carriers: Partial<Carriers>) =>
    tiltDeg({ upright: identity(), lowerArm: identity(), ...carriers } as Carriers, axes);

  it('is 24.8142 for swings of 20 and 15 degrees about crossed axes, from their cosines', () => {
    // Computed: acos(cos 20 cos 15). Tangents of projected angles would give 24.3212.
    const carriers = { upright: turned([1, 0, 0], 20), lowerArm: turned([0, 1, 0], 15) };
    expect(at(carriers)).toBeCloseTo(24.8142, 4);
  });

  it('is the angle between two lines: 0 to 90 degrees', () => {
    expect(at({ upright: turned([1, 0, 0], 100) })).toBeCloseTo(80, 12);
    expect(at({ upright: turned([1, 0, 0], 180) })).toBeCloseTo(0, 12);
    expect(at({ upright: turned([1, 0, 0], 1e-7) })).toBeCloseTo(1e-7, 18);
  });
});

/**
 * Project Chrono's HMMWV hardpoints (mechanismHardpoints.ts), computed independently of this program. The studs at
 * the upright are along the steering axis at ride height. A tie-rod end's stud is taken along the tie rod itself, so
 * its tilt is the whole swing of the rod against the rack or the upright.
 */
describe('tilt of the HMMWV joints', () => {
  const mechanism = prepareMechanism(HMMWV);
  const { lowerJoint, upperJoint, tieRodInner, tieRodOuter } = HMMWV.hardpoints;
  const kingpin = normalize(sub(upperJoint, lowerJoint));
  const rod = normalize(sub(tieRodOuter, tieRodInner));
  const joint = (bolt: 'upright' | 'rack', housing: 'lowerArm' | 'upperArm' | 'tieRod', direction: Vec3) => ({
    bolt: { carrier: bolt, direction },
    housing: { carrier: housing, direction },
  });
  const joints = [
    joint('upright', 'lowerArm', kingpin),
    joint('upright', 'upperArm', kingpin),
    joint('rack', 'tieRod', rod),
    joint('upright', 'tieRod', rod),
  ];

  it.each([
    [-75, 0, [8.15392, 14.58587, 10.51297, 9.01144]],
    [75, 0, [6.416, 12.01018, 9.74792, 6.99534]],
    [0, 40, [0.07106, 0.12924, 3.55144, 12.66417]],
  ] as const)('travel %d mm, rack %d mm to the left', (travelMm, rackMm, expected) => {
    const { rackOutboardMm, rackInboardMm, rackSense } = mechanism.linkage as RackLinkage;
    const side = rackSense * rackMm;
    const steer = side / (side > 0 ? rackOutboardMm : rackInboardMm);
    const { carriers } = solved(mechanism, travelMm, steer);
    for (const [k, axes] of joints.entries()) expect(tiltDeg(carriers, axes)).toBeCloseTo(expected[k], 5);
  });
});
