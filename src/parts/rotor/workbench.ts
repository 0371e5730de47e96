import { defaultNumber } from '../../design/fields.ts';
import { BORE_ROOM_MM, FLANGE_GAP_MM, usualFlangeMm } from '../hub/workbench.ts';
import { barrelRadiusMm, USUAL_RIM } from '../wheel/workbench.ts';
import { firstOf, type WorkbenchKind } from '../workbenchKind.ts';

// All figures in this file: common practice, no source.

/** Least difference of the rotor's and the hat's diameter, mm. */
const LEAST_RING_MM = 40;
export const USUAL_THICKNESS_MM = 25;

/** Height of a rotor, mm: it leaves room for the hub's flange behind the hat. */
export const usualRotorHeightMm = (thicknessMm: number): number => Math.max(55, thicknessMm + 28);

/** Least diameter of a hat that fits over the hub's flange, mm. */
const hatOverFlangeMm = (flangeDiameterMm: number): number =>
  flangeDiameterMm + 2 * (defaultNumber('rotor', 'hatThickness') + FLANGE_GAP_MM);

/** Diameter of a rotor that leaves room for a caliper inside a barrel, and has a hat over the hub's flange, mm. */
export const usualRotorMm = (barrelMm: number, flangeDiameterMm: number): number =>
  Math.max(Math.min(300, 2 * (barrelMm - 38)), hatOverFlangeMm(flangeDiameterMm) + LEAST_RING_MM);

/** Diameter of a hat over the hub's flange and inside the friction ring, mm. */
export const usualHatMm = (rotorMm: number, boltCircleMm: number, flangeDiameterMm: number): number =>
  Math.min(Math.max(150, boltCircleMm + 36, hatOverFlangeMm(flangeDiameterMm)), rotorMm - LEAST_RING_MM);

export const rotor: WorkbenchKind<'rotor'> = {
  /** Fits over the hub and inside the wheel. */
  start(corner) {
    const hub = firstOf(corner, 'hub');
    const wheel = firstOf(corner, 'wheel');
    const boltCircle = hub?.boltCircle ?? defaultNumber('hub', 'boltCircle');
    const flangeDiameter = hub?.flangeDiameter ?? usualFlangeMm(boltCircle);
    const diameter = Math.round(
      usualRotorMm(barrelRadiusMm(wheel?.diameterCode ?? USUAL_RIM.code, wheel), flangeDiameter),
    );
    return {
      diameter,
      thickness: USUAL_THICKNESS_MM,
      height: usualRotorHeightMm(USUAL_THICKNESS_MM),
      hatDiameter: Math.ceil(usualHatMm(diameter, boltCircle, flangeDiameter)),
      ...(hub === undefined ? {} : { centreBore: hub.pilotDiameter + BORE_ROOM_MM }),
    };
  },
  groups: {
    hatBolts({ hatDiameter, centreBore }, corner) {
      const hub = firstOf(corner, 'hub');
      const edge = Math.min(hatDiameter, hub?.flangeDiameter ?? hatDiameter);
      // As many bolts as studs, so that each bolt fits midway between two studs.
      return {
        count: hub?.studCount ?? defaultNumber('hub', 'studCount'),
        circle: Math.round((centreBore + edge) / 2),
      };
    },
  },
  solids: { rotor: { tone: '#a08962', key: [['diameter', 'Ø ', '']] } },
};
