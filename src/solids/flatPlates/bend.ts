import type { BendRule } from './flatPlate.ts';

/**
 * Lengths of a bend about an inside radius R of a plate of thickness T through the angle A: the tangents meet `setbackMm`
 * beyond the ends of the arc, measured in the middle plane, (R + T/2) tan(A/2); the neutral axis is `allowanceMm` long,
 * A (R + K T). The rule of the neutral axis: ambanimetal.com/fabricators-formula.html. Without a rule, the fold is sharp
 * and both are 0.
 */
export function bendLengths(
  angleRad: number,
  thicknessMm: number,
  rule: BendRule | undefined,
): { setbackMm: number; allowanceMm: number } {
  if (rule === undefined) return { setbackMm: 0, allowanceMm: 0 };
  const angle = Math.abs(angleRad);
  return {
    setbackMm: (rule.radiusMm + thicknessMm / 2) * Math.tan(angle / 2),
    allowanceMm: angle * (rule.radiusMm + rule.kFactor * thicknessMm),
  };
}
