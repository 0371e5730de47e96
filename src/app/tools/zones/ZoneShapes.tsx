import { useThree } from '@react-three/fiber';
import { useEffect, useMemo, useRef } from 'react';
import { BufferAttribute, BufferGeometry, type Group, LineBasicMaterial } from 'three';
import type { Carrier } from '../../../design/schema.ts';
import type { Pair } from '../../../sweep/pair.ts';
import { useTokens } from '../../kit/tokens.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { usePose } from '../../state/poseStore.ts';
import { useView } from '../../state/viewStore.ts';
import { setMatrix } from '../../view3d/setMatrix.ts';
import { zoneOutlines } from './zoneOutline.ts';

const OPACITY = 0.75;
/** Drawn after the parts and the ghosts of held poses. */
const ORDER = 30;

/** Outlines of the selected pair's zones of intended contact. */
export default function ZoneShapes({ corner }: { corner: OpenCorner }) {
  const index = useView((view) => view.pair);
  const pair = index === undefined ? undefined : corner.pairs[index];
  return pair === undefined ? null : <PairOutlines key={index} corner={corner} pair={pair} />;
}

/** Each zone is cut out of both surfaces and therefore drawn on both carriers. Follows the pose without a render. */
function PairOutlines({ corner, pair }: { corner: OpenCorner; pair: Pair }) {
  const groups = useRef(new Map<Carrier, Group>());
  const invalidate = useThree((three) => three.invalidate);
  const tokens = useTokens();
  const geometry = useMemo(() => {
    const made = new BufferGeometry();
    made.setAttribute('position', new BufferAttribute(zoneOutlines(pair.zones), 3));
    return made;
  }, [pair]);
  // Visible through the parts: most zones lie inside them.
  const material = useMemo(
    () => new LineBasicMaterial({ transparent: true, opacity: OPACITY, depthTest: false, depthWrite: false }),
    [],
  );
  useEffect(() => () => geometry.dispose(), [geometry]);
  useEffect(() => () => material.dispose(), [material]);
  material.color.set(tokens.ink);

  useEffect(() => {
    const follow = () => {
      const { drawn } = usePose.getState();
      if (drawn === undefined) return;
      for (const [carrier, group] of groups.current) setMatrix(group.matrix, drawn[carrier]);
      invalidate();
    };
    follow();
    return usePose.subscribe((now, before) => {
      if (now.drawn !== before.drawn) follow();
    });
  }, [invalidate]);
  useEffect(() => invalidate());

  const carriers = new Set([pair.a, pair.b].map((solid) => corner.solids[solid].carrier));
  return (
    <group scale={corner.design.corner.side === 'right' ? [1, -1, 1] : [1, 1, 1]}>
      {[...carriers].map((carrier) => (
        <group
          key={carrier}
          name={`zones on ${carrier}`}
          matrixAutoUpdate={false}
          ref={(group) => {
            if (group) groups.current.set(carrier, group);
            else groups.current.delete(carrier);
          }}
        >
          <lineSegments
            frustumCulled={false}
            raycast={() => {}}
            geometry={geometry}
            material={material}
            renderOrder={ORDER}
          />
        </group>
      ))}
    </group>
  );
}
