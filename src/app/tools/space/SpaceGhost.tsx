import { useThree } from '@react-three/fiber';
import { useEffect, useMemo } from 'react';
import { BufferAttribute, BufferGeometry, DoubleSide, MeshLambertMaterial } from 'three';
import { useTokens } from '../../kit/tokens.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { useSpace } from '../../state/spaceStore.ts';

const OPACITY = 0.16;
/** Drawn after the parts. */
const ORDER = 25;

/** The space that tyre and wheel sweep, as a translucent body that stays where it is while the pose moves. */
export default function SpaceGhost({ corner }: { corner: OpenCorner }) {
  const space = useSpace((state) => state.space);
  const invalidate = useThree((three) => three.invalidate);
  const tokens = useTokens();
  const geometry = useMemo(() => {
    if (space === undefined || space.designHash !== corner.design.hash) return undefined;
    const made = new BufferGeometry();
    made.setAttribute('position', new BufferAttribute(Float32Array.from(space.mesh.positions), 3));
    made.setIndex(new BufferAttribute(space.mesh.triangles, 1));
    made.computeVertexNormals();
    return made;
  }, [space, corner.design.hash]);
  const material = useMemo(
    () =>
      new MeshLambertMaterial({ transparent: true, opacity: OPACITY, depthWrite: false, side: DoubleSide }),
    [],
  );
  useEffect(() => () => geometry?.dispose(), [geometry]);
  useEffect(() => () => material.dispose(), [material]);
  useEffect(() => invalidate());
  material.color.set(tokens.accent);
  if (geometry === undefined) return null;
  return (
    <group scale={corner.design.corner.side === 'right' ? [1, -1, 1] : [1, 1, 1]}>
      <mesh name="space" raycast={() => {}} geometry={geometry} material={material} renderOrder={ORDER} />
    </group>
  );
}
