import { defaultNumber } from '../../design/fields.ts';
import { firstOf, type WorkbenchKind } from '../workbenchKind.ts';

// All figures in this file: common practice, no source.

/** Diametral clearance of the pilot in a bore, mm. */
export const BORE_ROOM_MM = 1;

/** Gap between the hub's flange and the wall of the hat around it, mm. */
export const FLANGE_GAP_MM = 3;

/** Usual dimensions that do not depend on other parts, mm. */
export const USUAL_HUB = { mountDepth: 75, housingDiameter: 85, mountFlangeDiameter: 132 };

/** Usual flange around a bolt circle, and the bolt circle on a flange, mm. */
export const usualFlangeMm = (boltCircleMm: number): number => boltCircleMm + 26;
/** Usual pilot inside a bolt circle, mm. */
export const usualPilotMm = (boltCircleMm: number): number =>
  Math.min(defaultNumber('hub', 'pilotDiameter'), boltCircleMm - 38);

export const hub: WorkbenchKind<'hub'> = {
  /** Fits the wheel and the rotor. */
  start(corner) {
    const wheel = firstOf(corner, 'wheel');
    const rotor = firstOf(corner, 'rotor');
    const boltCircle = wheel?.boltCircle ?? defaultNumber('hub', 'boltCircle');
    const studDiameter = wheel === undefined ? defaultNumber('hub', 'studDiameter') : wheel.boltHole - 2;
    const insideHat = rotor && rotor.hatDiameter - 2 * (rotor.hatThickness + FLANGE_GAP_MM);
    const bores = [wheel, rotor].flatMap((part) => (part ? [part.centreBore - BORE_ROOM_MM] : []));
    return {
      flangeDiameter: Math.max(
        Math.min(Math.round(usualFlangeMm(boltCircle)), insideHat ?? Number.POSITIVE_INFINITY),
        boltCircle + studDiameter,
      ),
      studCount: wheel?.boltCount ?? defaultNumber('hub', 'studCount'),
      boltCircle,
      studDiameter,
      pilotDiameter: Math.min(usualPilotMm(boltCircle), ...bores),
      ...USUAL_HUB,
    };
  },
  groups: {
    mountRectangle({ mountBoltCircle }) {
      // On the same circle as the bolts that the pattern replaces.
      const side = Math.floor(mountBoltCircle / Math.SQRT2);
      return { width: side, height: side };
    },
  },
  solids: {
    hub: { tone: '#809283', key: [['flangeDiameter', 'flange ', '']] },
    bearingHousing: { tone: '#6d9590', key: [['housingDiameter', 'Ø ', '']] },
  },
};
