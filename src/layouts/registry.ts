import { doubleWishboneRack } from './doubleWishboneRack/layout.ts';
import type { Layout } from './layout.ts';

/** Every layout that Daylight knows; a new corner starts with the first. */
export const LAYOUTS: readonly Layout[] = [doubleWishboneRack];
