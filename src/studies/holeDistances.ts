import { FASTENER_SIZES, readFastenerSize } from '../design/fastenerSizes.ts';
import { hubMountCircleMm } from '../design/hubMountCircle.ts';
import type { Corner, Entry } from '../design/schema.ts';
import { type HolePlace, hubMountPlaces } from '../solids/boltHoles.ts';
import { entries } from '../solids/wheelFrame.ts';

/** A least distance that somebody asks for, and where it comes from. A caution, no verdict on strength. */
export interface WantedDistance {
  mm: number;
  origin: string;
  /** Whether the distance is less. */
  short: boolean;
}

/** From the centre of a hole to an edge of the plate that it is in, or to the next hole's centre. */
export interface HoleDistance {
  /** Id of the part that has the holes. */
  partId: string;
  kind: 'edge' | 'pitch';
  /** "hub bolts to the bore". */
  words: string;
  distanceMm: number;
  /** Of the hole, and whether a set of bolts gives it by its size; else it is taken from the diameter of the bolts. */
  holeMm: number;
  holeKnown: boolean;
  wanted: readonly WantedDistance[];
}

/** EN 1993-1-8:2005 Table 3.3, of the hole's diameter: both for structural steel plate, end and edge alike. */
const LEAST_EDGE = 1.2;
const LEAST_PITCH = 2.2;
/** Of the bolt's diameter. */
const USUAL_EDGE = 2;

const EN_ORIGIN = 'EN 1993-1-8:2005 Table 3.3';
const USUAL_ORIGIN = 'two bolt diameters to the edge: common practice, no source';

interface Holes {
  boltMm: number;
  holeMm: number;
  holeKnown: boolean;
}

/**
 * Distances of the holes for the bolts of the hub's mount and of the caliper's, hole by hole alike, from the edges of what
 * they are in and from each other. The upright's pad is taken as the round disc that it is without its legs, which widen it
 * where they leave. Empty where there are no such parts; a distance below 0 is a hole past its edge.
 */
export const holeDistances = (corner: Corner): HoleDistance[] => [
  ...hubMountDistances(corner),
  ...entries(corner, 'caliper').flatMap((caliper) => caliperDistances(corner, caliper)),
];

function hubMountDistances(corner: Corner): HoleDistance[] {
  const [hub] = entries(corner, 'hub');
  if (hub === undefined) return [];
  const holes = holesOf(corner, 'hubMount', hub.mountBoltDiameter);
  const radius = hubMountCircleMm(hub) / 2;
  const edge = (partId: string, words: string, distanceMm: number) =>
    measured({ partId, kind: 'edge', words: `hub bolts to ${words}`, distanceMm }, holes);
  const upright = entries(corner, 'upright').flatMap(({ id, hubMount }) => [
    edge(id, "the rim of the upright's pad", hubMount.diameter / 2 - radius),
    edge(id, "the upright's bore", radius - hubMount.bore / 2),
  ]);
  const spacers = entries(corner, 'spacer')
    .filter(({ place }) => place === 'upright')
    .flatMap(({ id, outerDiameter, innerDiameter }) => [
      edge(id, 'the outside of the spacer', outerDiameter / 2 - radius),
      edge(id, 'the inside of the spacer', radius - innerDiameter / 2),
    ]);
  return [
    edge(hub.id, "the rim of the housing's flange", hub.mountFlangeDiameter / 2 - radius),
    ...upright,
    ...spacers,
    measured(
      {
        partId: hub.id,
        kind: 'pitch',
        words: 'hub bolts from each other',
        distanceMm: leastPitchMm(hubMountPlaces(hub)),
      },
      holes,
    ),
  ];
}

function caliperDistances(corner: Corner, caliper: Entry<'caliper'>): HoleDistance[] {
  const { id, mount, bracket } = caliper;
  const holes = holesOf(corner, 'caliperMount', mount.boltDiameter);
  const edge = (words: string): HoleDistance =>
    measured(
      {
        partId: id,
        kind: 'edge',
        words: `caliper bolts to the edge of ${words}`,
        distanceMm: mount.earDiameter / 2,
      },
      holes,
    );
  return [
    edge('the ears'),
    // The bracket is as round about the bolts as the ears are.
    ...(bracket === undefined ? [] : [edge('the bracket')]),
    measured(
      {
        partId: id,
        kind: 'pitch',
        words: 'caliper bolts from each other',
        distanceMm: mount.boltSpacing,
      },
      holes,
    ),
  ];
}

/** The holes of a joint: clearance holes of its bolts' size, or of the size that has the diameter its parts speak of. */
function holesOf(corner: Corner, joins: Entry<'bolts'>['joins'], boltMm: number): Holes {
  const bolts = entries(corner, 'bolts').find((one) => one.joins === joins);
  const size =
    bolts === undefined
      ? FASTENER_SIZES.find(({ diameterMm }) => Math.abs(diameterMm - boltMm) < 1e-6)
      : readFastenerSize(bolts.size);
  return {
    boltMm: size?.diameterMm ?? boltMm,
    holeMm: size?.clearanceHoleMm ?? boltMm,
    holeKnown: bolts !== undefined,
  };
}

function measured(
  { distanceMm, kind, ...about }: Pick<HoleDistance, 'partId' | 'kind' | 'words' | 'distanceMm'>,
  { boltMm, holeMm, holeKnown }: Holes,
): HoleDistance {
  const asks = (mm: number, origin: string): WantedDistance => ({ mm, origin, short: distanceMm < mm });
  const wanted =
    kind === 'pitch'
      ? [asks(LEAST_PITCH * holeMm, `${EN_ORIGIN}: ${LEAST_PITCH} hole diameters from centre to centre`)]
      : [
          asks(LEAST_EDGE * holeMm, `${EN_ORIGIN}: ${LEAST_EDGE} hole diameters from centre to edge`),
          asks(USUAL_EDGE * boltMm, USUAL_ORIGIN),
        ];
  return { ...about, kind, distanceMm, holeMm, holeKnown, wanted };
}

/** From each hole to the nearest other, the least of all, mm. */
const leastPitchMm = (places: readonly HolePlace[]): number =>
  Math.min(...places.flatMap(([x, z], k) => places.slice(k + 1).map(([u, w]) => Math.hypot(u - x, w - z))));
