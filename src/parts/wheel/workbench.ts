import { defaultNumber } from '../../design/fields.ts';
import type { Corner, Entry } from '../../design/schema.ts';
import { tyreDimensions } from '../../design/tyreSize.ts';
import { BORE_ROOM_MM } from '../hub/workbench.ts';
import { firstOf, type WorkbenchKind } from '../workbenchKind.ts';

/** Usual rim: common practice, no source. */
export const USUAL_RIM = { code: 17, widthIn: 8, offsetMm: 25 };

/** Edge of the pad beyond its bolt holes, on the diameter, mm. */
const PAD_EDGE_MM = 24;

/** Pad of a wheel that holds its bolt holes, mm. */
export const padOverMm = (boltCircleMm: number, boltHoleMm: number): number =>
  boltCircleMm + boltHoleMm + PAD_EDGE_MM;

/** Least inside radius of a barrel of the standard contour, mm. */
export const barrelRadiusMm = (
  code: number,
  { dropDepth, wall } = {
    dropDepth: defaultNumber('wheel', 'dropDepth'),
    wall: defaultNumber('wheel', 'wall'),
  },
): number => code * 12.7 - dropDepth - wall;

/** Holes and bore of a wheel that fits the hub. */
function holesOver(hub: Entry<'hub'>) {
  const { studCount, boltCircle, studDiameter, pilotDiameter } = hub;
  const boltHole = studDiameter + 2;
  return {
    boltCount: studCount,
    boltCircle,
    boltHole,
    centreBore: pilotDiameter + BORE_ROOM_MM,
    padDiameter: Math.max(defaultNumber('wheel', 'padDiameter'), Math.ceil(padOverMm(boltCircle, boltHole))),
  };
}

export const wheel: WorkbenchKind<'wheel'> = {
  start(corner: Corner) {
    const hub = firstOf(corner, 'hub');
    return {
      diameterCode: rimCodeOf(corner),
      width: `${USUAL_RIM.widthIn} in`,
      offset: USUAL_RIM.offsetMm,
      ...(hub === undefined ? {} : holesOver(hub)),
    };
  },
  groups: {
    innerBarrel({ width, backspacing, lip, offset, diameterCode, wall, dropDepth }) {
      const inboard = -(backspacing ?? width / 2 + lip + (offset ?? 0));
      const radius = Math.round(barrelRadiusMm(diameterCode, { wall, dropDepth }));
      return [
        { depth: Math.round(inboard), radius },
        { depth: Math.round(inboard + 0.7 * width), radius },
      ];
    },
  },
  solids: {
    wheel: {
      tone: '#858e92',
      glass: 0.42,
      key: [
        ['backspacing', '', ' back'],
        ['offset', 'offset ', ''],
      ],
    },
  },
};

function rimCodeOf(corner: Corner): number {
  const tyre = firstOf(corner, 'tyre');
  return tyre === undefined ? USUAL_RIM.code : tyreDimensions(tyre).rimCode;
}
