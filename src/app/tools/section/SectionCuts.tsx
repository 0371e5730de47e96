import { type ThreeEvent, useThree } from '@react-three/fiber';
import { useEffect, useMemo, useRef } from 'react';
import {
  BufferAttribute,
  BufferGeometry,
  Color,
  type Group,
  LineBasicMaterial,
  LineDashedMaterial,
} from 'three';
import type { Solid } from '../../../solids/solid.ts';
import { useTokens } from '../../kit/tokens.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { LOOKS } from '../../state/looks.ts';
import { useSection } from '../../state/sectionStore.ts';
import { useView } from '../../state/viewStore.ts';
import { isCutAway, setClipPlane } from '../../view3d/clipPlane.ts';
import { setMatrix } from '../../view3d/setMatrix.ts';
import type { PartCut } from '../../workers/section/cut.ts';
import { CutMaterial } from './CutMaterial.ts';
import { followSection } from './followSection.ts';

/** Geometry of the cut through one part. */
interface CutGeometry {
  faces: BufferGeometry;
  outline: BufferGeometry;
  swept: BufferGeometry;
}

const emptyGeometry = (): CutGeometry => ({
  faces: new BufferGeometry(),
  outline: new BufferGeometry(),
  swept: new BufferGeometry(),
});

/**
 * The current section: clips the picture, and fills and outlines the cut through every part. It follows the pose without a
 * render. A worker computes the cut faces.
 */
export function SectionCuts({ corner }: { corner: OpenCorner }) {
  const { invalidate, setEvents } = useThree();
  const group = useRef<Group>(null);
  const on = useSection((section) => section.kind !== undefined);
  const hidden = useView((view) => view.hidden);
  const pair = useView((view) => view.pair);
  const geometries = useMemo(() => corner.solids.map(emptyGeometry), [corner]);

  useEffect(() => {
    // Clipped surfaces cannot be picked.
    setEvents({ filter: (hits) => hits.filter(({ point }) => !isCutAway(point)) });
  }, [setEvents]);

  useEffect(
    () => () => {
      for (const { faces, outline, swept } of geometries) {
        faces.dispose();
        outline.dispose();
        swept.dispose();
      }
    },
    [geometries],
  );

  useEffect(() => {
    const { side } = corner.design.corner;
    const stop = followSection(corner, {
      onPlane(plane) {
        setClipPlane(plane, side);
        if (plane === undefined && group.current) group.current.visible = false;
        invalidate();
      },
      onCuts(cuts, vehicleFromPlane) {
        if (group.current === null) return;
        cuts.forEach((cut, i) => {
          show(geometries[i], cut);
        });
        setMatrix(group.current.matrix, vehicleFromPlane);
        group.current.visible = true;
        invalidate();
      },
      onFailure() {
        if (group.current) group.current.visible = false;
        invalidate();
      },
    });
    return () => {
      stop();
      setClipPlane(undefined, side);
    };
  }, [corner, geometries, invalidate]);

  const chosen = pair === undefined ? undefined : corner.pairs[pair];
  return (
    <group scale={corner.design.corner.side === 'right' ? [1, -1, 1] : [1, 1, 1]}>
      <group ref={group} matrixAutoUpdate={false} visible={false}>
        {on &&
          corner.solids.map((solid, i) => (
            <CutFace
              key={solid.id}
              solid={solid}
              geometry={geometries[i]}
              visible={!hidden.has(solid.id)}
              rank={chosen === undefined ? i : i === chosen.a ? 0 : i === chosen.b ? 1 : undefined}
            />
          ))}
      </group>
    </group>
  );
}

function show({ faces, outline, swept }: CutGeometry, cut: PartCut): void {
  // A buffer on the graphics card cannot change its length.
  for (const geometry of [faces, outline, swept]) geometry.dispose();
  faces.setAttribute('position', new BufferAttribute(cut.points, 3));
  faces.setIndex(new BufferAttribute(cut.triangles, 1));
  outline.setAttribute('position', new BufferAttribute(cut.outline, 3));
  swept.setAttribute('position', new BufferAttribute(cut.swept, 3));
  swept.setAttribute('lineDistance', new BufferAttribute(cut.sweptAlong, 1));
  for (const geometry of [faces, outline, swept]) geometry.boundingSphere = null;
}

interface CutFaceProps {
  solid: Solid;
  geometry: CutGeometry;
  visible: boolean;
  /** Parts of odd and of even rank are hatched differently; undefined for a part that is dimmed. */
  rank: number | undefined;
}

const HATCH = 0.45;
const DIMMED_OPACITY = 0.2;
const FACE_LIGHT = 0.18;
const always = { frustumCulled: false };

function CutFace({ solid, geometry, visible, rank }: CutFaceProps) {
  const tokens = useTokens();
  const invalidate = useThree((state) => state.invalidate);
  const face = useMemo(() => new CutMaterial(), []);
  const line = useMemo(() => new LineBasicMaterial({ transparent: true }), []);
  const dashed = useMemo(() => new LineDashedMaterial({ transparent: true, dashSize: 4, gapSize: 3 }), []);
  useEffect(
    () => () => {
      for (const material of [face, line, dashed]) material.dispose();
    },
    [face, line, dashed],
  );
  const dimmed = rank === undefined;
  // Cut faces are lighter than the part's surface, in both themes.
  face.color.set(LOOKS[solid.kind].tone).lerp(new Color('#ffffff'), FACE_LIGHT);
  face.opacity = dimmed ? DIMMED_OPACITY : 1;
  face.hatch((rank ?? 0) % 2 === 0 ? 1 : -1, tokens.ink, dimmed ? 0 : HATCH);
  line.color.set(tokens.ink);
  line.opacity = dimmed ? 2 * DIMMED_OPACITY : 1;
  dashed.color.set(tokens.ink);
  dashed.opacity = dimmed ? DIMMED_OPACITY : 0.7;
  useEffect(() => invalidate());
  const picking = {
    onClick(event: ThreeEvent<MouseEvent>) {
      if (event.delta > 3 || dimmed || useView.getState().tape) return;
      event.stopPropagation();
      useView.setState({ part: solid.partIndex });
    },
  };
  return (
    <group name={`cut of ${solid.id}`} visible={visible}>
      <mesh {...always} geometry={geometry.faces} material={face} renderOrder={dimmed ? 2 : 0} {...picking} />
      <lineSegments {...always} geometry={geometry.outline} material={line} renderOrder={3} />
      <lineSegments {...always} geometry={geometry.swept} material={dashed} renderOrder={3} />
    </group>
  );
}
