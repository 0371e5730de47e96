import { Color } from 'three';
import { GROUND_INK } from '../../kit/tint.ts';
import type { Tokens } from '../../kit/tokens.ts';

/** Colour of a surface with no other part near it while the gap tint is on. */
export const neutralTone = ({ bench, ink }: Tokens): Color =>
  new Color(bench).lerp(new Color(ink), GROUND_INK);
