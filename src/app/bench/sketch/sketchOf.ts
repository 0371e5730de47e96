import type { Corner } from '../../../design/schema.ts';
import { caliperSketch, rotorSketch, spacerSketch } from './brakeSketches.ts';
import type { Sketch } from './sketch.ts';
import { wheelSketch } from './wheelSketch.ts';

/** The sketch of a part from its own dimensions; undefined for a kind that is not sketched. */
export function sketchOf(corner: Corner, part: number): Sketch | undefined {
  const entry = corner.parts[part];
  switch (entry?.kind) {
    case 'wheel':
      return wheelSketch(entry);
    case 'rotor':
      return rotorSketch(entry);
    case 'spacer':
      return spacerSketch(entry);
    case 'caliper': {
      // A caliper is placed from the first rotor.
      const rotor = corner.parts.find((other) => other.kind === 'rotor');
      return rotor?.kind === 'rotor' ? caliperSketch(entry, rotor) : undefined;
    }
    default:
      return undefined;
  }
}
