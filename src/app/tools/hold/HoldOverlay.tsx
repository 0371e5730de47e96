import { type RefObject, useImperativeHandle, useRef } from 'react';
import { shownPoint } from '../../../design/side.ts';
import { applyPoint } from '../../../math/rigid.ts';
import type { Vec3 } from '../../../math/vec.ts';
import { figuresIn } from '../../../report/figures.ts';
import { gapTextWithUnit } from '../../kit/words.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { measuredPair } from '../../state/measuredPair.ts';
import { usePose } from '../../state/poseStore.ts';
import { useView } from '../../state/viewStore.ts';
import type { OverlayHandle } from '../../view3d/DimensionOverlay.tsx';
import type { Place } from '../../view3d/dimensionDrawing.ts';
import { useDrawnWhenMounted } from '../../view3d/overlayMounted.ts';
import { type HeldPose, heldResult, LETTERS, useHold } from './holdStore.ts';

/** Distance from the lower end of a gap to its tag. */
const TAG_BELOW_PX = 18;
/** Tags closer than this would overlap. */
const TAG_WIDTH_PX = 84;
const TAG_HEIGHT_PX = 20;

/** Over the picture: the letter of each held pose at its wheel, or with the clearance at the selected pair's gap. */
export function HoldOverlay({
  corner,
  handle,
}: {
  corner: OpenCorner;
  handle: RefObject<OverlayHandle | null>;
}) {
  const tags = useRef(new Map<string, HTMLDivElement>());
  const gaps = useRef<SVGPathElement>(null);

  useDrawnWhenMounted();
  useImperativeHandle(handle, () => ({
    draw(project) {
      const { poses } = useHold.getState();
      const { travelMm, steer } = usePose.getState();
      const placeOf = (point: Vec3) => project(shownPoint(corner.design.corner.side, point));
      let path = '';
      const placed: Place[] = [];
      for (const letter of LETTERS) {
        const tag = tags.current.get(letter);
        if (tag === undefined) continue;
        const pose = poses.find((one) => one.letter === letter);
        const apart = pose !== undefined && (pose.travelMm !== travelMm || pose.steer !== steer);
        const drawn = apart ? drawing(pose, placeOf) : undefined;
        tag.hidden = drawn === undefined;
        if (drawn === undefined) continue;
        tag.textContent = drawn.text;
        const at = { ...drawn.at };
        while (
          placed.some(({ x, y }) => Math.abs(x - at.x) < TAG_WIDTH_PX && Math.abs(y - at.y) < TAG_HEIGHT_PX)
        )
          at.y += TAG_HEIGHT_PX;
        placed.push(at);
        tag.style.transform = `translate(${at.x}px, ${at.y}px) translate(-50%, -50%)`;
        path += drawn.path;
      }
      gaps.current?.setAttribute('d', path);
    },
  }));

  const drawing = ({ letter }: HeldPose, placeOf: (point: Vec3) => Place) => {
    const result = heldResult(useHold.getState(), corner, letter);
    if (result?.carriers === undefined) return undefined;
    const { pair, unit } = useView.getState();
    const found =
      result.measured && pair !== undefined ? measuredPair(corner, result.measured, pair) : undefined;
    if (found === undefined || !Number.isFinite(found.pointA[0])) {
      const { wheelCentre } = corner.design.corner.suspension.hardpoints;
      return { at: placeOf(applyPoint(result.carriers.upright, wheelCentre)), text: letter, path: '' };
    }
    const [a, b] = [placeOf(found.pointA), placeOf(found.pointB)];
    const at = { x: (a.x + b.x) / 2, y: Math.max(a.y, b.y) + TAG_BELOW_PX };
    const text = `${letter} ${gapTextWithUnit(found.clearanceMm, found.errorMm, figuresIn(unit))}`;
    return { at, text, path: `M${a.x} ${a.y}L${b.x} ${b.y}` };
  };

  return (
    <div className="overlay" aria-hidden="true">
      <svg width="100%" height="100%" aria-hidden="true">
        <path ref={gaps} className="held-gaps" />
      </svg>
      {LETTERS.map((letter) => (
        <div
          key={letter}
          className="name-tag held-tag"
          hidden
          ref={(tag) => {
            if (tag) tags.current.set(letter, tag);
            else tags.current.delete(letter);
          }}
        />
      ))}
    </div>
  );
}
