import { useThree } from '@react-three/fiber';
import { useEffect, useMemo, useRef } from 'react';
import type { Group } from 'three';
import { carriersOf } from '../../../layouts/layoutOf.ts';
import type { OpenCorner } from '../../state/engine.ts';
import { isGlass } from '../../state/looks.ts';
import { usePose } from '../../state/poseStore.ts';
import { useSection } from '../../state/sectionStore.ts';
import { useView } from '../../state/viewStore.ts';
import { HeldGhosts } from '../../tools/hold/HeldGhosts.tsx';
import { useShading } from '../../tools/tint/shadingStore.ts';
import { setMatrix } from '../../view3d/setMatrix.ts';
import { useGeometries } from '../../view3d/useGeometries.ts';
import { useTouchingSolids } from '../../view3d/useTouching.ts';
import { type Look, PartMesh } from './PartMesh.tsx';

const NOT_YET: ReturnType<typeof useShading.getState>['surfaces'] = new Map();

/** Every solid on its carrier. Carriers follow the pose at every frame without a render. */
export function Parts({ corner }: { corner: OpenCorner }) {
  const groups = useRef(new Map<string, Group>());
  const invalidate = useThree((state) => state.invalidate);
  const hidden = useView((view) => view.hidden);
  const seeThrough = useView((view) => view.seeThrough);
  const part = useView((view) => view.part);
  const pair = useView((view) => view.pair);
  const hiding = useView((view) => view.hiding);
  const cut = useSection((section) => section.kind !== undefined);
  const touching = useTouchingSolids(corner);
  const gapTint = useView((view) => view.gapTint);
  const surfaces = useShading((state) =>
    state.shadersMade && state.corner === corner ? state.surfaces : NOT_YET,
  );

  const carriers = useMemo(() => carriersOf(corner.design.corner.suspension), [corner]);
  const { solids, geometries } = useGeometries(corner.solids);
  // While the geometries of a changed corner are prepared, the previous ones are drawn.
  const places = useMemo(() => new Map(corner.solids.map(({ id }, index) => [id, index])), [corner]);

  useEffect(() => {
    const follow = () => {
      const { drawn } = usePose.getState();
      if (drawn === undefined) return;
      for (const carrier of carriers) {
        const group = groups.current.get(carrier);
        if (group) setMatrix(group.matrix, drawn[carrier]);
      }
      invalidate();
    };
    follow();
    return usePose.subscribe((now, before) => {
      if (now.drawn !== before.drawn) follow();
    });
  }, [invalidate, carriers]);

  const chosen = pair === undefined ? undefined : corner.pairs[pair];
  const lookOf = (index: number): Look => {
    if (chosen !== undefined && chosen.a !== index && chosen.b !== index) return 'ghost';
    // With a section, parts that hide the gap are cut away.
    if (chosen !== undefined && !cut && hiding.includes(index)) return 'xray';
    return seeThrough && isGlass(corner.solids[index].kind) ? 'glass' : 'solid';
  };

  return (
    <group scale={corner.design.corner.side === 'right' ? [1, -1, 1] : [1, 1, 1]}>
      <HeldGhosts corner={corner} geometries={geometries} />
      {carriers.map((carrier) => (
        <group
          key={carrier}
          name={carrier}
          matrixAutoUpdate={false}
          ref={(group) => {
            if (group) groups.current.set(carrier, group);
            else groups.current.delete(carrier);
          }}
        >
          {solids.map((solid) => {
            const [geometry, index] = [geometries.get(solid), places.get(solid.id)];
            if (
              geometry === undefined ||
              index === undefined ||
              solid.carrier !== carrier ||
              hidden.has(solid.id)
            )
              return null;
            return (
              <PartMesh
                key={solid.id}
                name={solid.id}
                kind={solid.kind}
                geometry={geometry}
                look={lookOf(index)}
                touching={touching.has(index)}
                inHand={part === corner.solids[index].partIndex}
                tinted={gapTint}
                swept={solid.shown !== undefined}
                surface={gapTint ? surfaces.get(index)?.geometry : undefined}
                onPick={() => {
                  if (!useView.getState().tape) useView.setState({ part: corner.solids[index].partIndex });
                }}
              />
            );
          })}
        </group>
      ))}
    </group>
  );
}
