import { type ThreeEvent, useThree } from '@react-three/fiber';
import { useEffect, useMemo } from 'react';
import { type BufferGeometry, Color, LineBasicMaterial } from 'three';
import type { SolidKind } from '../../../solids/solid.ts';
import { firstFrameDrawn } from '../../kit/startupSignals.ts';
import { useTokens } from '../../kit/tokens.ts';
import { LOOKS } from '../../state/looks.ts';
import { neutralTone } from '../../tools/tint/neutralTone.ts';
import { ShadedFaces } from '../../tools/tint/ShadedFaces.tsx';
import { depthOnly, PartMaterial, setOpacity } from '../../view3d/partMaterial.ts';
import type { PartGeometry } from '../../view3d/useGeometries.ts';

/**
 * solid: opaque. glass: only its nearest surface is drawn, and parts inside show through. xray: all its surfaces are
 * transparent. ghost: dimmed, because it is not in the selected pair.
 */
export type Look = 'solid' | 'glass' | 'xray' | 'ghost';

interface PartMeshProps {
  name: string;
  kind: SolidKind;
  geometry: PartGeometry;
  look: Look;
  touching: boolean;
  inHand: boolean;
  /** Drawn in a neutral colour, because the gap tint is on. */
  tinted: boolean;
  /** Whether the checked shape is the swept body, not the drawn part. */
  swept: boolean;
  /** The checked surface with its tint at this pose; undefined until it is measured. */
  surface: BufferGeometry | undefined;
  onPick(): void;
}

/**
 * Order of drawing: opaque parts first, then glass, wheel before tyre because it is inside. The depth of each glass is
 * written first, so that only its nearest surface is drawn.
 */
const ORDER: Partial<Record<SolidKind, number>> = { wheel: 4, tyre: 8 };
const OPACITY = { solid: 1, xray: 0.32, ghost: 0.1 } as const;
const LINE_OPACITY: Record<Look, number> = { solid: 0.5, glass: 0.3, xray: 0.6, ghost: 0.12 };
const HATCH: Record<Look, number> = { solid: 0.85, glass: 0.45, xray: 0, ghost: 0 };
const GLASS_INK = 0.25;
const IN_HAND_TINT = 0.45;

export function PartMesh({
  name,
  kind,
  geometry,
  look,
  touching,
  inHand,
  tinted,
  swept,
  ...props
}: PartMeshProps) {
  const { onPick } = props;
  const surface = look === 'ghost' ? undefined : props.surface;
  const tokens = useTokens();
  const invalidate = useThree((state) => state.invalidate);
  const faces = useMemo(() => new PartMaterial(), []);
  const lines = useMemo(() => new LineBasicMaterial({ transparent: true, depthWrite: false }), []);
  useEffect(
    () => () => {
      faces.dispose();
      lines.dispose();
    },
    [faces, lines],
  );

  const tone = useMemo(() => new Color(LOOKS[kind].tone), [kind]);
  faces.color.copy(tinted ? neutralTone(tokens) : tone);
  // Lighter than the background, so that a dark tyre stays visible as glass.
  if (look === 'glass') faces.color.lerp(new Color(tokens.ink), GLASS_INK);
  if (inHand && !tinted) faces.color.lerp(new Color(tokens.accent), IN_HAND_TINT);
  faces.hatch(touching && !tinted ? tokens.touch : undefined, HATCH[look]);
  const opacity = look === 'glass' ? (LOOKS[kind].glass ?? 0.5) : OPACITY[look];
  setOpacity(faces, opacity);
  lines.color.set(touching ? tokens.touch : inHand ? tokens.accent : tokens.ink);
  lines.opacity = LINE_OPACITY[look];
  useEffect(() => invalidate());

  const order = look === 'solid' ? 0 : (ORDER[kind] ?? 1);
  const picking = {
    onClick(event: ThreeEvent<MouseEvent>) {
      // A drag turns the view and does not pick. Ghosts let the pick through to the parts behind.
      if (event.delta > 3 || look === 'ghost') return;
      event.stopPropagation();
      onPick();
    },
  };
  // Culling needs the bounds of every vertex first, and most parts are in view.
  const always = { frustumCulled: false };
  return (
    <group name={name}>
      {look === 'glass' && (
        <mesh {...always} geometry={surface ?? geometry.faces} material={depthOnly} renderOrder={order + 1} />
      )}
      <mesh
        {...always}
        visible={surface === undefined}
        geometry={geometry.faces}
        material={faces}
        renderOrder={order + 2}
        onAfterRender={firstFrameDrawn.notify}
        {...picking}
      />
      {surface !== undefined && <ShadedFaces geometry={surface} opacity={opacity} renderOrder={order + 2} />}
      <lineSegments
        visible={surface === undefined || !swept}
        {...always}
        geometry={geometry.edges}
        material={lines}
        renderOrder={look === 'solid' ? 3 : order}
      />
    </group>
  );
}
