import { describe, expect, it } from 'vitest';
import type { Suspension } from '../../src/design/schema.ts';
import { prepareMechanism } from '../../src/mechanism/mechanism.ts';
import { DesignProblems } from '../../src/units/problem.ts';
import { PARALLEL } from './planarCorners.ts';

const withPoints = (changes: Record<string, [number, number, number]>): Suspension => ({
  ...PARALLEL,
  hardpoints: { ...PARALLEL.hardpoints, ...changes },
});

function problemsOf(suspension: Suspension) {
  try {
    prepareMechanism(suspension);
  } catch (error) {
    if (error instanceof DesignProblems) return error.problems;
    throw error;
  }
  return expect.fail('no problem was found');
}

describe('geometry that cannot work is reported by field', () => {
  it.each<{ what: string; suspension: Suspension; path: string; message: RegExp }>([
    {
      what: 'two pivots in the same place',
      suspension: withPoints({ lowerArmRear: [150, 300.2, 200] }),
      path: 'suspension.hardpoints.lowerArmRear',
      message: /same point as lowerArmFront; the arm needs two pivots/,
    },
    {
      what: 'two upper-arm pivots in the same place',
      suspension: withPoints({ upperArmRear: [150, 240, 440] }),
      path: 'suspension.hardpoints.upperArmRear',
      message: /needs two pivots/,
    },
    {
      what: 'a joint on its pivot line',
      suspension: withPoints({ upperJoint: [0, 240, 440] }),
      path: 'suspension.hardpoints.upperJoint',
      message: /lies on the line of the upper arm's pivots/,
    },
    {
      what: 'both joints in the same place',
      suspension: withPoints({ upperJoint: [0, 700.1, 200] }),
      path: 'suspension.hardpoints.upperJoint',
      message: /same point as lowerJoint/,
    },
    {
      what: 'a tie rod without length',
      suspension: withPoints({ tieRodInner: [-120, 690, 260] }),
      path: 'suspension.hardpoints.tieRodOuter',
      message: /a tie rod needs a length/,
    },
    {
      what: 'a steering arm without length',
      suspension: withPoints({ tieRodOuter: [0, 670, 320] }),
      path: 'suspension.hardpoints.tieRodOuter',
      message: /could not steer the upright/,
    },
    {
      what: 'an upper arm in line with the upright',
      suspension: withPoints({ upperArmFront: [150, 580, 680], upperArmRear: [-150, 580, 680] }),
      path: 'suspension.hardpoints.upperJoint',
      message: /in line at ride height/,
    },
    {
      what: 'a tie rod in line with the steering arm',
      suspension: withPoints({ tieRodInner: [-360, 670, 380] }),
      path: 'suspension.hardpoints.tieRodOuter',
      message: /in line with the steering arm/,
    },
    {
      what: 'a lower arm that turns about a vertical line',
      suspension: withPoints({
        lowerArmFront: [0, 300, 300],
        lowerArmRear: [0, 300, 100],
      }),
      path: 'suspension.hardpoints.lowerJoint',
      message: /neither rises nor falls/,
    },
    {
      what: 'a rack at a right angle to the tie rod',
      suspension: { ...PARALLEL, steering: { rackOutboard: 40, rackInboard: 0, rackDirection: [1, 0, 0] } },
      path: 'suspension.steering.rackDirection',
      message: /right angle to the tie rod/,
    },
    {
      what: 'damper mounts in the same place',
      suspension: {
        ...PARALLEL,
        damper: { chassisMount: [0, 500, 300], armMount: [0, 500, 300.5], on: 'lowerArm' },
      },
      path: 'suspension.damper.armMount',
      message: /two mounts/,
    },
  ])('$what', ({ suspension, path, message }) => {
    const [problem, ...others] = problemsOf(suspension);
    expect(others).toEqual([]);
    expect(problem.path).toBe(path);
    expect(problem.message).toMatch(message);
    expect(problem.found).toMatch(/^\[.*\]$/);
  });

  it('reports several problems at once', () => {
    const problems = problemsOf(
      withPoints({ lowerArmRear: [150, 300, 200], upperJoint: [0, 240, 440], tieRodInner: [-120, 690, 260] }),
    );
    expect(problems.map(({ path }) => path)).toEqual([
      'suspension.hardpoints.lowerArmRear',
      'suspension.hardpoints.upperJoint',
      'suspension.hardpoints.tieRodOuter',
    ]);
  });

  it('accepts any direction for a rack without travel', () => {
    const fixed = { rackOutboard: 0, rackInboard: 0, rackDirection: [1, 0, 0] as [number, number, number] };
    expect(() => prepareMechanism({ ...PARALLEL, steering: fixed })).not.toThrow();
  });
});
