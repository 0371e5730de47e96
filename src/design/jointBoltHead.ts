/** Head or nut of a bolt, mm. */
export interface BoltHead {
  /** Across the corners. */
  diameter: number;
  height: number;
}

/**
 * Usual head and nut of a joint's bolt, mm: the largest of M10 to M16 in proportion to the bolt. ISO 4014 and ISO 4032:
 * across corners 18.5 mm for M10, nut 14.8 mm for M16.
 */
export const usualBoltHead = (boltDiameterMm: number): BoltHead => ({
  diameter: 1.85 * boltDiameterMm,
  height: 0.93 * boltDiameterMm,
});
