import { FASTENER_SIZES, readFastenerSize } from '../../design/fasteners/fastenerSizes.ts';
import type { Corner, Entry } from '../../design/schema.ts';
import { caliperMountStack } from '../caliperMount.ts';
import { entries } from '../wheelFrame.ts';
import type { PlateHole } from './flatPlate.ts';

type HoleSize = Pick<PlateHole, 'boltMm' | 'cut'>;

/**
 * The size of a hole for the bolts of a joint in a plate at the `side` end of the clamped parts. A clearance hole, if the
 * file has the bolts and they do not screw into the plate.
 */
function holeSize(
  bolts: Entry<'bolts'> | undefined,
  boltMm: number,
  side: Entry<'bolts'>['headSide'],
): HoleSize {
  const unknown = (size: number, why: string): HoleSize => ({
    boltMm: size,
    cut: { diameterMm: undefined, why },
  });
  if (bolts === undefined) {
    const standard = FASTENER_SIZES.find(({ diameterMm }) => Math.abs(diameterMm - boltMm) < 1e-6);
    const known =
      standard === undefined
        ? ''
        : ` A clearance hole for ${standard.name} is ${standard.clearanceHoleMm} mm (${clearanceStandard(standard.name)}).`;
    return unknown(
      boltMm,
      `the file has no part of kind "bolts" that says whether this hole is tapped or a clearance hole.${known}`,
    );
  }
  const { name, diameterMm, clearanceHoleMm } = readFastenerSize(bolts.size);
  if (!bolts.nut && bolts.headSide !== side)
    return unknown(
      diameterMm,
      `the bolt ${bolts.size} screws into this plate, and the file does not give the drill for its thread.`,
    );
  return {
    boltMm: diameterMm,
    cut: {
      diameterMm: clearanceHoleMm,
      from: `clearance hole for ${name}, ${clearanceStandard(name)}; the solid has no hole here`,
    },
  };
}

/** The standard that gives the clearance holes of a size's table. ASME B18.2.8 lacks 9/16 in. */
const clearanceStandard = (name: string): string =>
  name.startsWith('M')
    ? 'ISO 273, medium'
    : name.startsWith('9/16')
      ? 'a sixteenth larger, as its neighbours in ASME B18.2.8'
      : 'ASME B18.2.8, normal';

const boltsOf = (corner: Corner, joins: Entry<'bolts'>['joins']) =>
  entries(corner, 'bolts').find((bolts) => bolts.joins === joins);

/** Hole in the upright for the bolts of the bearing housing. */
export const hubMountHole = (corner: Corner, hub: Entry<'hub'>): HoleSize =>
  holeSize(boltsOf(corner, 'hubMount'), hub.mountBoltDiameter, 'inboard');

/** Hole in a caliper's bracket, or in the upright if it has none, for the bolts through its ears. */
export function caliperHole(corner: Corner, caliper: Entry<'caliper'>): HoleSize {
  const { earInboard, earOutboard, bracket } = caliperMountStack(corner, caliper);
  const isInboard = bracket === undefined || bracket.inboard + bracket.outboard < earInboard + earOutboard;
  // A set of bolts holds the first caliper only.
  const isHeld = entries(corner, 'caliper')[0]?.id === caliper.id;
  return holeSize(
    isHeld ? boltsOf(corner, 'caliperMount') : undefined,
    caliper.mount.boltDiameter,
    isInboard ? 'inboard' : 'outboard',
  );
}
