import { describe, expect, it } from 'vitest';
import { offsetsOf } from '../../../../src/app/tools/tape/measured.ts';
import { angleText, diameterText } from '../../../../src/app/tools/tape/pickWords.ts';
import { figuresIn } from '../../../../src/report/figures.ts';

describe('offsets from the first to the second', () => {
  it('of an uncambered, unsteered wheel are along the vehicle axes', () => {
    const axis = { point: [0, 800, 300], direction: [0, 1, 0] } as const;
    const offsets = offsetsOf([10, 700, 300], [40, 750, 340], 'left', axis);
    expect(offsets.vehicle).toEqual({ forwardMm: 30, leftMm: 50, upMm: 40 });
    expect(offsets.wheel).toEqual({
      forwardMm: 30,
      outboardMm: 50,
      upMm: 40,
      awayFromAxisMm: Math.hypot(40, 40) - 10,
    });
  });

  it('of a steered wheel are along its own axis at the pose', () => {
    const s = Math.SQRT1_2;
    // Front edge turned outboard by 45 degrees: its axis points outboard and to the rear.
    const axis = { point: [0, 0, 0], direction: [-s, s, 0] } as const;
    const { wheel } = offsetsOf([0, 0, 0], [1, 1, 0], 'left', axis);
    expect(wheel.forwardMm).toBeCloseTo(Math.SQRT2, 12);
    expect(wheel.outboardMm).toBeCloseTo(0, 12);
    expect(wheel.upMm).toBeCloseTo(0, 12);
    expect(wheel.awayFromAxisMm).toBeCloseTo(Math.SQRT2, 12);
  });

  it('of a cambered wheel have an up direction square to its axis, in the vertical plane', () => {
    const [c, s] = [Math.cos(0.1), Math.sin(0.1)];
    // Top outboard.
    const { wheel } = offsetsOf([0, 0, 0], [0, s, c], 'left', { point: [0, 0, 0], direction: [0, c, -s] });
    expect(wheel.upMm).toBeCloseTo(1, 12);
    expect(wheel.outboardMm).toBeCloseTo(0, 12);
  });

  it('of a right corner are mirrored', () => {
    const axis = { point: [0, 0, 0], direction: [0, 1, 0] } as const;
    const { vehicle, wheel } = offsetsOf([0, 0, 0], [1, 2, 3], 'right', axis);
    expect(vehicle.leftMm).toBe(-2);
    expect(wheel.outboardMm).toBe(2);
  });
});

describe('texts of the tape', () => {
  it('give a diameter as a fraction of an inch if one is within its error', () => {
    expect(diameterText(7.9375, 1e-4, 'in')).toBe('Ø 5/8 in');
    expect(diameterText(7.93755, 1e-4, 'in')).toBe('Ø 5/8 in');
    expect(diameterText(7.95, 1e-4, 'in')).toBe('Ø 0.626 in');
    expect(diameterText(6, 1e-4, 'in')).toBe('Ø 0.472 in');
    expect(diameterText(6, 1e-4, 'mm')).toBe('Ø 12 mm');
    expect(diameterText(7.9375, 1e-4, 'mm')).toBe('Ø 15.88 mm');
    // An error above the last figure is shown.
    expect(diameterText(6.02, 0.05, 'mm')).toBe('Ø 12.04 ± 0.10 mm');
    expect(diameterText(7.95, 0.02, 'in')).toBe('Ø 0.625 ± 0.003 in');
    expect(diameterText(7.94, 0.05, 'in')).toBe('Ø 0.625 ± 0.005 in');
  });

  it('give an angle with its error, rounded up', () => {
    const rad = (deg: number) => (deg * Math.PI) / 180;
    expect(angleText({ rad: rad(89.5), errorRad: rad(0.004) })).toBe('89.50 ± 0.01°');
    expect(angleText({ rad: rad(12.344), errorRad: rad(0.05) })).toBe('12.34 ± 0.06°');
  });

  it('give an offset with its sign and error', () => {
    expect(figuresIn('mm').signedWithError(12.5, 0.1)).toBe('+12.50 ± 0.10');
    expect(figuresIn('mm').signedWithError(-12.5, 0.1)).toBe('−12.50 ± 0.10');
    expect(figuresIn('mm').signedWithError(0, 0.1)).toBe('0.00 ± 0.10');
  });
});
