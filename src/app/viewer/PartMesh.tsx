import { type ThreeEvent, useThree } from '@react-three/fiber';
import { useEffect, useMemo } from 'react';
import { type BufferGeometry, Color, LineBasicMaterial } from 'three';
import type { SolidKind } from '../../solids/solid.ts';
import { neutralTone } from '../shading/neutralTone.ts';
import { ShadedFaces } from '../shading/ShadedFaces.tsx';
import { useTokens } from '../tokens.ts';
import { PART_TONES } from '../tones.ts';
import { firstPicture } from './moments.ts';
import { depthOnly, PartMaterial, setOpacity } from './partMaterial.ts';
import type { PartGeometry } from './useGeometries.ts';

/**
 * solid: as it is. glass: its nearest surface alone, and what is inside shows through it. xray: every surface of it
 * shows through every other. ghost: stands back, because a pair without it is in hand.
 */
export type Look = 'solid' | 'glass' | 'xray' | 'ghost';

interface PartMeshProps {
  name: string;
  kind: SolidKind;
  geometry: PartGeometry;
  look: Look;
  touching: boolean;
  inHand: boolean;
  /** Drawn without a hue of its own, because gaps are tinted. */
  tinted: boolean;
  /** What is checked of it is not what is seen. */
  swept: boolean;
  /** What is checked of it, measured at this pose; undefined until it is. */
  surface: BufferGeometry | undefined;
  onPick(): void;
}

/**
 * Order of drawing. Opaque parts first; then what is behind glass, wheel before tyre because it stands inside; the
 * nearest surface of each glass alone is drawn, which its depth, written first, sees to.
 */
const ORDER: Partial<Record<SolidKind, number>> = { wheel: 4, tyre: 8 };
const GLASS_OPACITY: Partial<Record<SolidKind, number>> = { wheel: 0.42, tyre: 0.2 };
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

  const tone = useMemo(() => new Color(PART_TONES[kind]), [kind]);
  faces.color.copy(tinted ? neutralTone(tokens) : tone);
  // Dark as tyres are, but never as dark as the ground behind its glass.
  if (look === 'glass') faces.color.lerp(new Color(tokens.ink), GLASS_INK);
  if (inHand && !tinted) faces.color.lerp(new Color(tokens.accent), IN_HAND_TINT);
  faces.hatch(touching && !tinted ? tokens.touch : undefined, HATCH[look]);
  const opacity = look === 'glass' ? (GLASS_OPACITY[kind] ?? 0.5) : OPACITY[look];
  setOpacity(faces, opacity);
  lines.color.set(touching ? tokens.touch : inHand ? tokens.accent : tokens.ink);
  lines.opacity = LINE_OPACITY[look];
  useEffect(() => invalidate());

  const order = look === 'solid' ? 0 : (ORDER[kind] ?? 1);
  const picking = {
    onClick(event: ThreeEvent<MouseEvent>) {
      // A press that turned the view is not a choice; ghosts let the choice through to what is behind.
      if (event.delta > 3 || look === 'ghost') return;
      event.stopPropagation();
      onPick();
    },
  };
  // To tell what is out of view costs a look at every corner of every triangle first, and the whole is in view mostly.
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
        onAfterRender={firstPicture.tell}
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
