import { Color } from 'three';
import type { Tokens } from '../tokens.ts';

const INK = 0.2;

/** What a surface with nothing near it is drawn in while gaps are tinted: no part has a hue of its own then. */
export const neutralTone = ({ bench, ink }: Tokens): Color => new Color(bench).lerp(new Color(ink), INK);
