import { shownPoint } from '../../design/side.ts';
import { applyPoint, compose, invert } from '../../math/rigid.ts';
import { add, distance, midpoint, scale, type Vec3 } from '../../math/vec.ts';
import type { OpenCorner } from '../engine.ts';
import { sectionPlaneNow, useSection } from '../section/sectionStore.ts';
import { useCorner } from '../stores/cornerStore.ts';
import { usePose } from '../stores/poseStore.ts';
import { type CameraView, type LookRequest, useView } from '../stores/viewStore.ts';
import { GLASS } from '../tones.ts';
import type { Size } from '../useSize.ts';
import { cornerReach, shownSpinAxis } from './cornerReach.ts';
import { frame, lowered } from './frame.ts';
import { squareOnBoth } from './hiddenFrom.ts';
import { eyeDirection, eyeOnCut } from './standpoint.ts';

/** A pair's dimension is shown with this much round it. */
const PAIR_SURROUNDINGS_MM = 230;
const PAIR_REACH = 7;
/** Zones are shown with as much round them as their own reach. */
const ZONE_REACH = 2;
/** Lower bars over the picture leave enough of it. */
const LOW_BARS_PX = 60;

/** How much of the picture is covered by what lies over its upper and its lower edge, px; none where that is low. */
function covered(canvas: Element): { abovePx: number; belowPx: number } {
  const viewer = canvas.closest('.viewer');
  const picture = canvas.getBoundingClientRect();
  const head = viewer?.querySelector('.viewer-head')?.getBoundingClientRect();
  const foot = viewer?.querySelector('.viewer-foot')?.getBoundingClientRect();
  const high = (px: number) => (px > LOW_BARS_PX ? px : 0);
  return {
    abovePx: high(head === undefined ? 0 : head.bottom - picture.top),
    belowPx: high(foot === undefined ? 0 : picture.bottom - foot.top),
  };
}

/**
 * The view that is asked for, of an element of this size; undefined where there is none, as of a pair that has none. A view
 * that is made rather than kept is lowered by what bars cover. Notes what hides the gap of the pair in hand.
 */
export function wantedView(
  look: LookRequest,
  corner: OpenCorner,
  element: Element,
  size: Size,
): CameraView | undefined {
  const { abovePx, belowPx } = covered(element);
  const free = { width: size.width, height: Math.max(1, size.height - abovePx - belowPx) };
  const seen = freeView(look, corner, free);
  if (seen === undefined || look.from === 'kept') return seen;
  return { eye: seen.eye, ...lowered(seen, seen.eye, (abovePx - belowPx) / 2) };
}

function freeView(
  { from }: LookRequest,
  corner: OpenCorner,
  { width, height }: Size,
): CameraView | undefined {
  const { drawn } = usePose.getState();
  const { hidden: hiddenIds, pair } = useView.getState();
  if (drawn === undefined || width === 0) return undefined;
  if (from === 'kept') return useView.getState().camera;
  const { side } = corner.design.corner;
  const axis = shownSpinAxis(corner, drawn);
  if (from === 'section') {
    const plane = sectionPlaneNow(corner);
    if (plane === undefined) return undefined;
    const eye = eyeOnCut(shownPoint(side, [plane[2], plane[6], plane[10]]));
    if (useSection.getState().kind !== 'gap')
      return { eye, ...frame(cornerReach(corner, drawn, hiddenIds), eye, width, height, 0.86) };
    const target = shownPoint(side, [plane[3], plane[7], plane[11]]);
    return { eye, target, pxPerMm: Math.min(width, height) / PAIR_SURROUNDINGS_MM };
  }
  if (from !== 'pair') {
    const eye = eyeDirection(from, side, axis);
    return { eye, ...frame(cornerReach(corner, drawn, hiddenIds), eye, width, height, 0.86) };
  }
  const finding = useCorner.getState().swept?.findings.pairs.find((one) => one.pair === pair);
  if (pair === undefined) return undefined;
  const preferred = shownPoint(side, eyeDirection('threeQuarter', side, axis));
  if (finding?.worst === undefined) return viewOfZones(corner, pair, preferred, Math.min(width, height));
  const { worst } = finding;
  const { pose } = corner.poseAt(worst.travelMm, worst.steer);
  if (pose.kind !== 'solved') return undefined;
  const { carrier } = corner.solids[corner.pairs[pair].a];
  // A fit pair is shown wherever the corner stands: its points ride with it.
  const nowFromWorst = compose(drawn[carrier], invert(pose.carriers[carrier]));
  const [a, b] = [worst.pointA, worst.pointB].map((p) => applyPoint(nowFromWorst, p));
  const bodies = [corner.pairs[pair].a, corner.pairs[pair].b].filter(
    (index) => !hiddenIds.has(corner.solids[index].id),
  );
  const { eye, hiding: hides } = squareOnBoth(
    a,
    b,
    preferred,
    bodies.map((index) => {
      const { shown, mesh, carrier } = corner.solids[index];
      return { mesh: shown ?? mesh, vehicleFromMesh: drawn[carrier] };
    }),
  );
  const hiding = bodies.filter((_, k) => hides[k]);
  // Where each is inside the other, the one that is glass anyhow gives way.
  const glass = hiding.filter((index) => GLASS.includes(corner.solids[index].kind));
  useView.setState({ hiding: hiding.length === 2 && glass.length === 1 ? glass : hiding });
  const round = Math.max(PAIR_SURROUNDINGS_MM, PAIR_REACH * distance(a, b)) / 2;
  return {
    eye: shownPoint(side, eye),
    target: shownPoint(side, midpoint(a, b)),
    pxPerMm: Math.min(width, height) / (2 * round),
  };
}

/** Where the zones of a pair are seen from that has nothing else near; undefined without zones. */
function viewOfZones(corner: OpenCorner, index: number, eye: Vec3, sizePx: number): CameraView | undefined {
  const { a, zones } = corner.pairs[index];
  const { drawn } = usePose.getState();
  if (drawn === undefined || zones.length === 0) return undefined;
  const { side } = corner.design.corner;
  const middle = scale(
    zones.reduce<Vec3>((sum, { centre }) => add(sum, centre), [0, 0, 0]),
    1 / zones.length,
  );
  const reachMm = Math.max(...zones.map(({ centre, radiusMm }) => distance(centre, middle) + radiusMm));
  const target = shownPoint(side, applyPoint(drawn[corner.solids[a].carrier], middle));
  const round = Math.max(PAIR_SURROUNDINGS_MM / 2, ZONE_REACH * reachMm);
  return { eye: shownPoint(side, eye), target, pxPerMm: sizePx / (2 * round) };
}
