import type { Rate, Slope } from '../../studies/sensitivity/rate.ts';
import type { Effect } from '../../studies/sensitivity/sensitivity.ts';
import { decimal, type Figures, MM_PER_UNIT } from '../figures.ts';
import { valueInWords } from '../inputSection.ts';

/** The effect of a value on a clearance, as text. */
export interface EffectInWords {
  /** Path of the value in the file. */
  path: string;
  name: string;
  inFile: string;
  /** Unit of the change: "mm per degree". */
  unit: string;
  change: string;
}

/** Decimals of a slope per length and per degree, and the scale of their unit. */
const DECIMALS = { length: 2, angle: 3 } as const;

/** "+0.61 ± 0.18", the error rounded up. */
function slopeInWords({ perUnit, error }: Slope, kind: 'length' | 'angle', figures: Figures): string {
  const per = kind === 'length' ? 1 : MM_PER_UNIT[figures.unit];
  const decimals = DECIMALS[kind];
  const step = 10 ** decimals;
  const shown = Math.round((perUnit / per) * step) / step;
  // The error bar covers the rounding.
  const bar = Math.ceil((error / per + Math.abs(perUnit / per - shown)) * step - 1e-6) / step;
  return `${decimal(shown, decimals, true)} ± ${decimal(Math.max(bar, 1 / step), decimals)}`;
}

function rateInWords({ both, below, above }: Rate, kind: 'length' | 'angle', figures: Figures): string {
  if (both !== undefined) return slopeInWords(both, kind, figures);
  const side = (slope: Slope | undefined) =>
    slope === undefined ? 'not known' : slopeInWords(slope, kind, figures);
  return `${side(below)} below the value, ${side(above)} above it`;
}

/** Whether an effect is larger than its error on a side. */
export const isKnown = ({ rate: { both, below, above } }: Effect): boolean =>
  (both === undefined ? [below, above] : [both]).some(
    (slope) => slope !== undefined && Math.abs(slope.perUnit) > slope.error,
  );

/** The effect of a value as text, in the unit of `figures`. */
export const effectInWords = ({ value, rate }: Effect, figures: Figures): EffectInWords => ({
  path: value.input.path,
  name: value.field.name,
  inFile: `${valueInWords(value.input, figures)}${value.input.assumed ? ', assumed' : ''}`,
  unit: value.field.kind === 'length' ? `${figures.unit} per ${figures.unit}` : `${figures.unit} per degree`,
  change: rateInWords(rate, value.field.kind, figures),
});
