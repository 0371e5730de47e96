import type { Carrier } from '../../design/schema.ts';
import type { Solid } from '../../solids/solid.ts';
import type { Region } from './region.ts';

/** An intended contact between two solids. */
export interface Intended {
  /** Description, such as "bolt in its hole". */
  what: string;
  region: Region;
  /** The carrier that the region is fixed to. */
  carrier: Carrier;
}

/** The properties of a solid that the rules of intended contact read. */
export type SolidRef = Pick<Solid, 'id' | 'partIndex' | 'carrier'>;
