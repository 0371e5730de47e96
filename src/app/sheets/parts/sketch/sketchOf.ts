import type { Corner } from '../../../../design/schema.ts';
import { entries } from '../../../../solids/wheelFrame.ts';
import { boltsSketch } from './boltsSketch.ts';
import { boxSketch } from './boxSketch.ts';
import { rotorSketch, spacerSketch } from './brakeSketches.ts';
import { caliperSketch } from './caliperSketch.ts';
import { plateSketch, tubeSketch } from './chassisSketches.ts';
import { damperSketch } from './damperSketch.ts';
import { hubSketch, tyreSketch } from './hubSketches.ts';
import { controlArmSketch, jointSketch, tieRodSketch } from './linkSketches.ts';
import type { Sketch } from './sketch.ts';
import { uprightSketch } from './uprightSketch.ts';
import { wheelSketch } from './wheelSketch.ts';

/** The sketch of a part of a valid corner; undefined if there is nothing to draw. */
export function sketchOf(corner: Corner, part: number): Sketch | undefined {
  const entry = corner.parts[part];
  switch (entry?.kind) {
    case 'wheel':
      return wheelSketch(entry, corner);
    case 'tyre': {
      const [wheel] = entries(corner, 'wheel');
      return wheel === undefined ? undefined : tyreSketch(entry, wheel, corner);
    }
    case 'hub':
      return hubSketch(entry, corner);
    case 'rotor':
      return rotorSketch(entry, corner);
    case 'spacer':
      return spacerSketch(entry, corner);
    case 'caliper': {
      // The caliper's depths start at the first rotor.
      const [rotor] = entries(corner, 'rotor');
      return rotor === undefined ? undefined : caliperSketch(entry, rotor, corner);
    }
    case 'upright':
      return uprightSketch(entry, corner);
    case 'controlArm':
      return controlArmSketch(entry, corner);
    case 'joint':
      return jointSketch(entry, corner);
    case 'tieRod':
      return tieRodSketch(entry, corner);
    case 'damper':
      return damperSketch(entry, corner);
    case 'bolts':
      return boltsSketch(entry, corner);
    case 'tube':
      return tubeSketch(entry);
    case 'box':
      return boxSketch(entry);
    case 'plate':
      return plateSketch(entry);
    case undefined:
      return undefined;
  }
}
