import type { Suspension } from '../../src/design/schema.ts';
import { between, mulberry32 } from './random.ts';
import { randomCorner } from './randomCorner.ts';

/** A random corner with 60 to 140 mm of rack to each side. Many such corners lock out within their travel and lock. */
export function lockingCorner(seed: number): Suspension {
  const random = mulberry32(77000 + seed);
  const corner = randomCorner(seed);
  const asDrawn = random() < 1 / 3;
  const steering = {
    ...corner.steering,
    rackOutboard: between(random, 60, 140),
    rackInboard: between(random, 60, 140),
  };
  const [bump, droop] = [between(random, 60, 160), between(random, 60, 160)];
  return { ...corner, steering, travel: asDrawn ? corner.travel : { bump, droop } };
}
