/**
 * Rates and instant centres of struts. The generic strut has the hardpoints of Project Chrono (BSD-3-Clause),
 * data/vehicle/generic/suspension/MacPhersonStrut.json. Its rates were computed independently of this program: a velocity
 * solve of the linkage, confirmed by central differences to 1e-8.
 */
import { afterAll, describe, expect, it, vi } from 'vitest';
import type { Vec3 } from '../../src/math/vec.ts';
import { type AlignmentRates, alignmentRates } from '../../src/mechanism/alignmentRates.ts';
import { prepareMechanism } from '../../src/mechanism/mechanism.ts';
import { solved } from '../mechanism/solved.ts';
import { strutSuspension } from './strut.ts';

// Test files share the modules that they import. This one gets its own, and the next one the real registry again.
vi.hoisted(() => vi.resetModules());
vi.mock(import('../../src/layouts/registry.ts'), async () => ({
  LAYOUTS: [(await import('./strut.ts')).strut],
}));
afterAll(() => {
  vi.doUnmock(import('../../src/layouts/registry.ts'));
  vi.resetModules();
});

function ratesOf(points: Record<string, Vec3>, radiusMm: number): AlignmentRates {
  const mechanism = prepareMechanism(strutSuspension(points));
  return (
    alignmentRates(mechanism, solved(mechanism, 0, 0), { radiusMm, planeMm: 0 }) ?? expect.fail('no rates')
  );
}

describe('generic strut at ride height', () => {
  const wheelCentre: Vec3 = [-40.00403, 1099.99965, -26.02507];
  const rates = ratesOf(
    {
      armFront: [220, 520, -156],
      armRear: [-300, 507, -137],
      lowerJoint: [-21.65371, 940.57703, -174.02826],
      strutTop: [-115, 785, 579],
      strutLower: [-74.02507, 853.2915, 248.4536],
      tieRodInner: [-300, 520, -59],
      tieRodOuter: [-237.3756, 894.95045, -16.05418],
      wheelCentre,
    },
    309.9,
  );

  it('has the rates of camber and toe, and of the strut', () => {
    expect(rates.camberDegPerM).toBeCloseTo(-14.63765, 4);
    expect(rates.toeDegPerM).toBeCloseTo(-32.85668, 4);
    expect(rates.motionRatio).toBeCloseTo(0.921862, 6);
    expect(rates.contactForwardPerRise).toBeCloseTo(-0.007362, 6);
  });

  it('has the roll centre and the instant centres', () => {
    expect(rates.rollCentreHeightMm).toBeCloseTo(100.7466, 3);
    expect(rates.frontViewCentre?.acrossMm).toBeCloseTo(-2814.275, 2);
    expect(rates.frontViewCentre?.heightMm).toBeCloseTo(358.5, 2);
    // The source gives X from the wheel centre.
    expect((rates.sideViewCentre?.acrossMm ?? 0) - wheelCentre[0]).toBeCloseTo(-3217.345, 2);
    expect(rates.sideViewCentre?.heightMm).toBeCloseTo(-23.686, 2);
  });
});

describe('a plane strut', () => {
  it('has its instant centre where the arm meets the line through the top at right angles to the strut', () => {
    // Strut axis from (680, 250) to (600, 850), arm from (320, 230) to (700, 200), contact at (750, 0).
    const rates = ratesOf(
      {
        armFront: [150, 320, 230],
        armRear: [-150, 320, 230],
        lowerJoint: [0, 700, 200],
        strutTop: [0, 600, 850],
        strutLower: [0, 680, 250],
        tieRodInner: [-120, 320, 230],
        tieRodOuter: [-120, 700, 200],
        wheelCentre: [0, 750, 310],
      },
      310,
    );
    // Arm: z = 230 - 3 (y - 320) / 38. Normal to the strut: z = 850 + 2 (y - 600) / 15. They meet at:
    const y = (230 + (3 * 320) / 38 - 850 + (2 * 600) / 15) / (3 / 38 + 2 / 15);
    expect(y).toBeCloseTo(-2424.79339, 5);
    expect(rates.frontViewCentre?.acrossMm).toBeCloseTo(y, 4);
    expect(rates.frontViewCentre?.heightMm).toBeCloseTo(446.69421, 4);
    expect(rates.rollCentreHeightMm).toBeCloseTo(105.52519, 5);
  });
});
