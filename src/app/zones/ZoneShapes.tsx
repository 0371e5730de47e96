import { useThree } from '@react-three/fiber';
import { useEffect, useMemo, useRef } from 'react';
import { BufferAttribute, BufferGeometry, type Group, LineBasicMaterial } from 'three';
import type { Carrier } from '../../design/schema.ts';
import type { Pair } from '../../sweep/pair.ts';
import type { OpenCorner } from '../engine.ts';
import { usePose } from '../stores/poseStore.ts';
import { useView } from '../stores/viewStore.ts';
import { useTokens } from '../tokens.ts';
import { setMatrix } from '../viewer/setMatrix.ts';
import { zoneOutlines } from './zoneOutline.ts';

const OPACITY = 0.75;
/** Over the parts and the ghosts of held poses. */
const ORDER = 30;

/** Outlines of the zones in which contact between the parts of the chosen pair is intended. */
export default function ZoneShapes({ corner }: { corner: OpenCorner }) {
  const index = useView((view) => view.pair);
  const pair = index === undefined ? undefined : corner.pairs[index];
  return pair === undefined ? null : <PairOutlines key={index} corner={corner} pair={pair} />;
}

/** Each zone is cut out of both surfaces, so that it is drawn on the carriers of both; it follows the pose without a render. */
function PairOutlines({ corner, pair }: { corner: OpenCorner; pair: Pair }) {
  const groups = useRef(new Map<Carrier, Group>());
  const invalidate = useThree((three) => three.invalidate);
  const tokens = useTokens();
  const geometry = useMemo(() => {
    const made = new BufferGeometry();
    made.setAttribute('position', new BufferAttribute(zoneOutlines(pair.zones), 3));
    return made;
  }, [pair]);
  // Seen through the parts, in which most zones lie.
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
