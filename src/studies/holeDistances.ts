import { FASTENER_SIZES, readFastenerSize } from '../design/fasteners/fastenerSizes.ts';
import { hubMountCircleMm } from '../design/fasteners/hubMountCircle.ts';
import type { Corner, Entry } from '../design/schema.ts';
import { type HolePlace, hubMountPlaces } from '../solids/fasteners/boltHoles.ts';
import { entries } from '../solids/wheelFrame.ts';

/** A recommended smallest distance and its origin. A caution, not a verdict on strength. */
export interface WantedDistance {
  mm: number;
  origin: string;
  /** Whether the distance is smaller. */
  short: boolean;
}

/** Distance from the centre of a hole to an edge of its plate, or to the centre of the next hole. */
export interface HoleDistance {
  /** Id of the part with the holes. */
  partId: string;
  kind: 'edge' | 'pitch';
  /** Description, such as "hub bolts to the bore". */
  words: string;
  distanceMm: number;
  /**
   * Diameter of the hole, and whether it follows from the size of a set of bolts; if not, it is taken from the bolts'
   * diameter.
   */
  holeMm: number;
  holeKnown: boolean;
  wanted: readonly WantedDistance[];
}

/** EN 1993-1-8:2005 Table 3.3, in hole diameters: both for structural steel plate, for end and edge alike. */
const MIN_EDGE = 1.2;
const MIN_PITCH = 2.2;
/** In bolt diameters. */
const USUAL_EDGE = 2;

const EN_ORIGIN = 'EN 1993-1-8:2005 Table 3.3';
const USUAL_ORIGIN = 'two bolt diameters to the edge: common practice, no source';

interface Holes {
  boltMm: number;
  holeMm: number;
  holeKnown: boolean;
}

/**
 * Distances of the holes of the hub's and the caliper's mounting bolts from the edges of their parts and from each
 * other; all holes of a mount are alike. The upright's pad is taken as a round disc without its legs, which widen it.
 * Empty if there are no such parts; negative for a hole past its edge.
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
        distanceMm: minPitchMm(hubMountPlaces(hub)),
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
    // The bracket has the same radius about the bolts as the ears.
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

/**
 * The holes of a bolted joint: clearance holes of the bolts' size, or of the standard size with the diameter given by
 * the parts.
 */
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
  const recommended = (mm: number, origin: string): WantedDistance => ({
    mm,
    origin,
    short: distanceMm < mm,
  });
  const wanted =
    kind === 'pitch'
      ? [recommended(MIN_PITCH * holeMm, `${EN_ORIGIN}: ${MIN_PITCH} hole diameters from centre to centre`)]
      : [
          recommended(MIN_EDGE * holeMm, `${EN_ORIGIN}: ${MIN_EDGE} hole diameters from centre to edge`),
          recommended(USUAL_EDGE * boltMm, USUAL_ORIGIN),
        ];
  return { ...about, kind, distanceMm, holeMm, holeKnown, wanted };
}

/** Smallest distance between two holes, mm. */
const minPitchMm = (places: readonly HolePlace[]): number =>
  Math.min(...places.flatMap(([x, z], k) => places.slice(k + 1).map(([u, w]) => Math.hypot(u - x, w - z))));
