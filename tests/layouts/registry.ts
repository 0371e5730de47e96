import { doubleWishboneRack } from '../../src/layouts/doubleWishboneRack/layout.ts';
import type { Layout } from '../../src/layouts/layout.ts';
import { trailingArm } from './trailingArm/layout.ts';

/** The registry of `src/layouts` with one more line; tests put it in its place. */
export const LAYOUTS: readonly Layout[] = [doubleWishboneRack, trailingArm];
