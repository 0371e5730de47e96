import type { Corner } from '../design/schema.ts';
import { shownSteer } from '../design/side.ts';
import { layoutOf } from '../layouts/layoutOf.ts';
import { inputOf } from '../layouts/steering.ts';
import { decimal, type Figures } from './figures.ts';

/**
 * Steering input as shown, mm or degrees: positive turns this wheel's front edge toward the vehicle's left (ISO 8855).
 */
export const shownInput = (corner: Corner, steer: number): number =>
  shownSteer(corner.side, inputOf(corner.suspension, steer));

/** The shown steering input under its key in JSON files: `{ rackMm: 42 }`. */
export const inputField = <T>({ suspension }: Corner, value: T): Record<string, T> => ({
  [layoutOf(suspension).steering.key]: value,
});

/** How a steering input is written. */
export interface SteeringFigures {
  /** "rack". */
  noun: string;
  unit: string;
  /** With its sign, without its unit. */
  signed(input: number): string;
  /** Without a sign, with its unit. */
  withUnit(input: number): string;
  /** A range with its signs, rounded outward, with its unit. */
  span(low: number, high: number): string;
  /** Appends the unit to a text. */
  addUnit(text: string): string;
}

/** Steering inputs of a corner in the unit of the figures; angles in degrees. */
export function steeringFigures({ suspension }: Corner, figures: Figures): SteeringFigures {
  const { noun, quantity } = layoutOf(suspension).steering;
  if (quantity === 'length') {
    const addUnit = (text: string) => `${text} ${figures.unit}`;
    return {
      noun,
      unit: figures.unit,
      signed: figures.signedPlace,
      withUnit: figures.placeWithUnit,
      span: (low, high) => addUnit(figures.span(low, high)),
      addUnit,
    };
  }
  const addUnit = (text: string) => `${text}°`;
  const signed = (degrees: number) => decimal(degrees, 1, true);
  const outward = (degrees: number, round: (tenths: number) => number) => signed(round(10 * degrees) / 10);
  return {
    noun,
    unit: '°',
    signed,
    withUnit: (degrees) => addUnit(decimal(degrees, 1)),
    span: (low, high) => addUnit(`${outward(low, Math.floor)} to ${outward(high, Math.ceil)}`),
    addUnit,
  };
}

/** "Rack": the noun as a heading. */
export const steeringTitle = ({ suspension }: Corner): string => {
  const { noun } = layoutOf(suspension).steering;
  return noun.charAt(0).toUpperCase() + noun.slice(1);
};

/** "Rack, mm". */
export const steeringHeading = (corner: Corner, figures: Figures): string =>
  `${steeringTitle(corner)}, ${steeringFigures(corner, figures).unit}`;
