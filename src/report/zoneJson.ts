import { type Side, shownPoint } from '../design/side.ts';
import type { Zone } from '../solids/solid.ts';
import type { Pair, UncheckedPair } from '../sweep/pair.ts';
import { rounded } from './rounded.ts';
import { treatmentOf } from './treatment.ts';

/** Treatment and zones of a pair for JSON, in vehicle axes at ride height, for the side of the corner. */
export const treatmentObject = (side: Side, pair: Pick<Pair, 'zones'>) => ({
  treatment: treatmentOf(pair),
  zones: pair.zones.map((zone) => zoneObject(side, zone)),
});

function zoneObject(side: Side, zone: Zone) {
  const isDisc = zone.shape === 'slab';
  return {
    what: zone.what ?? null,
    shape: zone.shape,
    centreMm: shownPoint(side, zone.centre).map(rounded),
    radiusMm: rounded(zone.radiusMm),
    axis: isDisc ? shownPoint(side, zone.axis).map(rounded) : null,
    thicknessMm: isDisc ? rounded(2 * zone.halfThicknessMm) : null,
  };
}

/** An unchecked pair for JSON. */
export const uncheckedObject = (
  solids: readonly { id: string }[],
  { a, b, why, coveredBy = [] }: UncheckedPair,
) => ({ a: solids[a].id, b: solids[b].id, why, coveredBy });
