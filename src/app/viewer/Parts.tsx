import { useThree } from '@react-three/fiber';
import { useEffect, useMemo, useRef } from 'react';
import type { Group } from 'three';
import { CARRIERS } from '../../design/schema.ts';
import type { OpenCorner } from '../engine.ts';
import { HeldGhosts } from '../hold/HeldGhosts.tsx';
import { useSection } from '../section/sectionStore.ts';
import { useShading } from '../shading/shadingStore.ts';
import { usePose } from '../stores/poseStore.ts';
import { useView } from '../stores/viewStore.ts';
import { GLASS } from '../tones.ts';
import { type Look, PartMesh } from './PartMesh.tsx';
import { setMatrix } from './setMatrix.ts';
import { useGeometries } from './useGeometries.ts';
import { useTouchingSolids } from './useTouching.ts';

const NOT_YET: ReturnType<typeof useShading.getState>['surfaces'] = new Map();

/** Every solid on its carrier; carriers follow the pose frame by frame, without a render. */
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

  const { solids, geometries } = useGeometries(corner.solids);
  // While those of a changed corner are made ready, those of before it stand in their place.
  const places = useMemo(() => new Map(corner.solids.map(({ id }, index) => [id, index])), [corner]);

  useEffect(() => {
    const follow = () => {
      const { drawn } = usePose.getState();
      if (drawn === undefined) return;
      for (const carrier of CARRIERS) {
        const group = groups.current.get(carrier);
        if (group) setMatrix(group.matrix, drawn[carrier]);
      }
      invalidate();
    };
    follow();
    return usePose.subscribe((now, before) => {
      if (now.drawn !== before.drawn) follow();
    });
  }, [invalidate]);

  const chosen = pair === undefined ? undefined : corner.pairs[pair];
  const lookOf = (index: number): Look => {
    if (chosen !== undefined && chosen.a !== index && chosen.b !== index) return 'ghost';
    // What hides a gap is cut away by a section.
    if (chosen !== undefined && !cut && hiding.includes(index)) return 'xray';
    return seeThrough && GLASS.includes(corner.solids[index].kind) ? 'glass' : 'solid';
  };

  return (
    <group scale={corner.design.corner.side === 'right' ? [1, -1, 1] : [1, 1, 1]}>
      <HeldGhosts corner={corner} geometries={geometries} />
      {CARRIERS.map((carrier) => (
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
