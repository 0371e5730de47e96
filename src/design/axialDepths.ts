import type { Entry, PartEntry, PartKind } from './schema.ts';

/** The entries of one kind, in the order of the file. */
export const entriesOf = <K extends PartKind>(parts: readonly PartEntry[], kind: K): Entry<K>[] =>
  parts.filter((part): part is Entry<K> => part.kind === kind);

/** Depths of the parts that are clamped along the wheel axis, mm from the hub's wheel-mounting face, positive outboard. */
export interface AxialDepths {
  /** Depth of the wheel's mounting face, outboard of rotor hats and wheel spacers. */
  wheelFaceDepth: number;
  /** Depths of the two faces of a spacer. Spacers of one place are stacked in the order of the file, the first at the hub
   * or housing. */
  spacerFaces(spacer: Entry<'spacer'>): { inboard: number; outboard: number };
  /** Depths of a rotor's inboard and outboard friction faces, and of the outer face of its hat. */
  rotorFaces(rotor: Entry<'rotor'>): { inboard: number; outboard: number; hatOuter: number };
  /** Depths of the bearing housing's mounting face, and of the upright's hub pad behind the spacers. */
  housingFaceDepth: number;
  uprightFaceDepth: number;
}

/** Computes the depths from the dimensions of hub, rotors and spacers. */
export function axialDepths(parts: readonly PartEntry[]): AxialDepths {
  const hub = entriesOf(parts, 'hub')[0];
  const hats = entriesOf(parts, 'rotor').filter((rotor) => rotor.mount === 'overStuds');
  const placed = (place: 'wheel' | 'upright') =>
    entriesOf(parts, 'spacer').filter((spacer) => spacer.place === place);
  const thickness = (spacers: Entry<'spacer'>[]) =>
    spacers.reduce((sum, spacer) => sum + spacer.thickness, 0);
  const hatDepth = hats.reduce((sum, rotor) => sum + rotor.hatThickness, 0);
  const housingFaceDepth = -(hub?.mountDepth ?? 0);
  return {
    wheelFaceDepth: hatDepth + thickness(placed('wheel')),
    spacerFaces(spacer) {
      const stack = placed(spacer.place);
      const before = thickness(
        stack.slice(
          0,
          stack.findIndex(({ id }) => id === spacer.id),
        ),
      );
      if (spacer.place === 'wheel')
        return { inboard: hatDepth + before, outboard: hatDepth + before + spacer.thickness };
      const outboard = housingFaceDepth - before;
      return { inboard: outboard - spacer.thickness, outboard };
    },
    rotorFaces(rotor) {
      const hatOuter = rotor.mount === 'overStuds' ? rotor.hatThickness : -(hub?.flangeThickness ?? 0);
      const inboard = hatOuter - rotor.height;
      return { inboard, outboard: inboard + rotor.thickness, hatOuter };
    },
    housingFaceDepth,
    uprightFaceDepth: housingFaceDepth - thickness(placed('upright')),
  };
}
