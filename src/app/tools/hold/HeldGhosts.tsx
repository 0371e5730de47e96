import { useThree } from '@react-three/fiber';
import { useEffect, useMemo, useRef } from 'react';
import { type Group, LineBasicMaterial, Matrix4, MeshBasicMaterial } from 'three';
import type { Solid } from '../../../solids/solid.ts';
import { useTokens } from '../../kit/tokens.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { usePose } from '../../state/poseStore.ts';
import { useView } from '../../state/viewStore.ts';
import { setMatrix } from '../../view3d/setMatrix.ts';
import type { PartGeometry } from '../../view3d/useGeometries.ts';
import { type HeldPose, heldResult, useHold } from './holdStore.ts';

const FACE_OPACITY = 0.05;
const LINE_OPACITY = 0.5;
/** Drawn after the corner at the current pose. */
const ORDER = 20;
const still = { frustumCulled: false, matrixAutoUpdate: false, raycast: () => {} };

interface HeldGhostsProps {
  corner: OpenCorner;
  geometries: ReadonlyMap<Solid, PartGeometry>;
}

/** The corner at each held pose as a faint ghost: its moving parts, or only the selected pair. */
export function HeldGhosts({ corner, geometries }: HeldGhostsProps) {
  const state = useHold();
  const tokens = useTokens();
  const invalidate = useThree((three) => three.invalidate);
  const pair = useView((view) => view.pair);
  const hidden = useView((view) => view.hidden);
  const faces = useMemo(
    () => new MeshBasicMaterial({ transparent: true, opacity: FACE_OPACITY, depthWrite: false }),
    [],
  );
  const lines = useMemo(
    () => new LineBasicMaterial({ transparent: true, opacity: LINE_OPACITY, depthWrite: false }),
    [],
  );
  useEffect(
    () => () => {
      faces.dispose();
      lines.dispose();
    },
    [faces, lines],
  );
  faces.color.set(tokens.ink);
  lines.color.set(tokens.soft);
  useEffect(() => invalidate());

  const chosen = pair === undefined ? undefined : corner.pairs[pair];
  const shown = corner.solids.filter(
    ({ id, carrier }, i) =>
      carrier !== 'chassis' && !hidden.has(id) && (chosen === undefined || i === chosen.a || i === chosen.b),
  );
  return state.poses.map((pose) => {
    const carriers = heldResult(state, corner, pose.letter)?.carriers;
    if (carriers === undefined) return null;
    return (
      <HiddenAtPose key={pose.letter} pose={pose}>
        {shown.map((solid) => {
          const geometry = geometries.get(solid);
          if (geometry === undefined) return null;
          const matrix = setMatrix(new Matrix4(), carriers[solid.carrier]);
          return (
            <group key={solid.id} matrixAutoUpdate={false} matrix={matrix}>
              <mesh {...still} geometry={geometry.faces} material={faces} renderOrder={ORDER} />
              <lineSegments {...still} geometry={geometry.edges} material={lines} renderOrder={ORDER} />
            </group>
          );
        })}
      </HiddenAtPose>
    );
  });
}

/** Draws its children unless the corner is at this very pose. */
function HiddenAtPose({ pose, children }: { pose: HeldPose; children: React.ReactNode }) {
  const group = useRef<Group>(null);
  useEffect(() => {
    const follow = () => {
      const { travelMm, steer } = usePose.getState();
      if (group.current) group.current.visible = travelMm !== pose.travelMm || steer !== pose.steer;
    };
    follow();
    return usePose.subscribe(follow);
  }, [pose]);
  return <group ref={group}>{children}</group>;
}
