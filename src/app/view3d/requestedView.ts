import { shownPoint } from '../../design/side.ts';
import { applyPoint, compose, invert } from '../../math/rigid.ts';
import { add, distance, midpoint, scale, type Vec3 } from '../../math/vec.ts';
import type { Size } from '../kit/useSize.ts';
import { useCorner } from '../state/cornerStore.ts';
import type { OpenCorner } from '../state/engine.ts';
import { isGlass } from '../state/looks.ts';
import { usePose } from '../state/poseStore.ts';
import { sectionPlaneNow, useSection } from '../state/sectionStore.ts';
import { type CameraView, useView, type ViewRequest } from '../state/viewStore.ts';
import { cornerReach, shownSpinAxis } from './cornerReach.ts';
import { frame, lowered } from './frame.ts';
import { squareOnBoth } from './occlusion.ts';
import { eyeDirection, eyeOnCut } from './standpoint.ts';

/** Least size of the view of a pair's dimension. */
const PAIR_SURROUNDINGS_MM = 230;
/** Size of the view of a pair, in lengths of its gap. */
const PAIR_VIEW_FACTOR = 7;
/** Size of the view of zones, in sizes of the zones. */
const ZONE_VIEW_FACTOR = 2;
/** Bars lower than this are ignored when the view is centred. */
const LOW_BARS_PX = 60;

/** Height of the picture covered by the bars at its upper and lower edge, px; 0 for low bars. */
function coveredPx(canvas: Element): { abovePx: number; belowPx: number } {
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
 * The requested view for an element of this size; undefined if there is none, as for a pair without a gap or zones. A
 * computed view is centred between the bars. Puts the solids that hide the gap of the selected pair into `useView`.
 */
export function requestedView(
  request: ViewRequest,
  corner: OpenCorner,
  element: Element,
  size: Size,
): CameraView | undefined {
  const { abovePx, belowPx } = coveredPx(element);
  const free = { width: size.width, height: Math.max(1, size.height - abovePx - belowPx) };
  const view = unobstructedView(request, corner, free);
  if (view === undefined || request.from === 'kept') return view;
  return { eye: view.eye, ...lowered(view, view.eye, (abovePx - belowPx) / 2) };
}

/** The requested view for an element without bars. */
function unobstructedView(
  { from }: ViewRequest,
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
  // A fit pair is shown at the current pose: its points move with their carrier.
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
  // If both hide the gap and one is glass, only the glass one is made see-through.
  const glass = hiding.filter((index) => isGlass(corner.solids[index].kind));
  useView.setState({ hiding: hiding.length === 2 && glass.length === 1 ? glass : hiding });
  const halfSizeMm = Math.max(PAIR_SURROUNDINGS_MM, PAIR_VIEW_FACTOR * distance(a, b)) / 2;
  return {
    eye: shownPoint(side, eye),
    target: shownPoint(side, midpoint(a, b)),
    pxPerMm: Math.min(width, height) / (2 * halfSizeMm),
  };
}

/** View of the zones of a pair that is far elsewhere; undefined without zones. */
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
  const halfSizeMm = Math.max(PAIR_SURROUNDINGS_MM / 2, ZONE_VIEW_FACTOR * reachMm);
  return { eye: shownPoint(side, eye), target, pxPerMm: sizePx / (2 * halfSizeMm) };
}
