import type { Entry } from '../../design/schema.ts';
import { vehicleFromBox } from '../../solids/boxFrame.ts';
import type { Builder } from '../../solids/build.ts';
import { placed } from '../../solids/place.ts';

/** A rectangular block, turned about vehicle X, then Y, then Z through its centre (right-hand rule, ISO 8855 axes). */
export const buildBox: Builder<Entry<'box'>> = (entry, { modeller }) => {
  const { id, carrier, size } = entry;
  const solid = modeller.Manifold.cube([...size], true);
  return [{ id, kind: 'box', carrier, attachments: [], ...placed(solid, vehicleFromBox(entry), 0) }];
};
