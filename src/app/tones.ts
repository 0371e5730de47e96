import type { SolidKind } from '../solids/solid.ts';

/**
 * Colours of the parts: earth tones of one OKLab lightness (0.64) and little chroma, so that no part shouts and every
 * mark stands out from all of them. The tyre alone is darker, as tyres are.
 */
export const PART_TONES: Record<SolidKind, string> = {
  wheel: '#858e92',
  tyre: '#4d5052',
  hub: '#809283',
  bearingHousing: '#71948f',
  spacer: '#928b7d',
  rotor: '#a08962',
  caliper: '#b57c6d',
  upright: '#7390a9',
  controlArm: '#9584a3',
  jointBolt: '#8f8a83',
  joint: '#828e97',
  tieRod: '#639799',
  damperBody: '#918f64',
  damperRod: '#928b85',
  bolts: '#8b8c98',
  tube: '#8f8c84',
  box: '#8f8c84',
  plate: '#8f8c84',
};

/** Kinds drawn as glass so that what is inside them can be seen. */
export const GLASS: readonly SolidKind[] = ['wheel', 'tyre'];
