import { useThree } from '@react-three/fiber';
import { useEffect, useMemo } from 'react';
import { Color, LineBasicMaterial, MeshBasicMaterial } from 'three';
import type { SolidKind } from '../../solids/solid.ts';
import { useTokens } from '../tokens.ts';
import { PART_TONES } from '../tones.ts';
import type { PartGeometry } from './geometryCache.ts';
import { PartMaterial } from './partMaterial.ts';

/** solid: as it is. glass: what is inside shows. ghost: stands back, because a pair without it is in hand. */
export type Look = 'solid' | 'glass' | 'ghost';

interface PartMeshProps {
  name: string;
  kind: SolidKind;
  geometry: PartGeometry;
  look: Look;
  touching: boolean;
  inHand: boolean;
  onPick(): void;
}

/**
 * Order of drawing. Opaque parts first; then what is behind glass, wheel before tyre because it stands inside; the
 * nearest surface of each glass alone is drawn, which its depth, written first, sees to.
 */
const ORDER: Partial<Record<SolidKind, number>> = { wheel: 4, tyre: 8 };
const GLASS_OPACITY: Partial<Record<SolidKind, number>> = { wheel: 0.34, tyre: 0.2 };
const GHOST_OPACITY = 0.1;
const IN_HAND_TINT = 0.45;

const depthOnly = new MeshBasicMaterial({ colorWrite: false });

export function PartMesh({ name, kind, geometry, look, touching, inHand, onPick }: PartMeshProps) {
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
  faces.color.copy(tone);
  if (inHand) faces.color.lerp(new Color(tokens.accent), IN_HAND_TINT);
  faces.hatch = touching ? tokens.touch : undefined;
  faces.transparent = look !== 'solid';
  faces.depthWrite = look === 'solid';
  faces.opacity = look === 'glass' ? (GLASS_OPACITY[kind] ?? 0.3) : look === 'ghost' ? GHOST_OPACITY : 1;
  // Faces a hair back, so that the lines on them are not swallowed.
  faces.polygonOffset = true;
  faces.polygonOffsetFactor = 1;
  faces.polygonOffsetUnits = 1;
  lines.color.set(touching ? tokens.touch : inHand ? tokens.accent : tokens.ink);
  lines.opacity = look === 'ghost' ? 0.14 : look === 'glass' ? 0.3 : 0.5;
  useEffect(() => invalidate());

  const order = look === 'solid' ? 0 : (ORDER[kind] ?? 1);
  return (
    <group name={name}>
      {look === 'glass' && <mesh geometry={geometry.faces} material={depthOnly} renderOrder={order + 1} />}
      <mesh
        geometry={geometry.faces}
        material={faces}
        renderOrder={order + 2}
        onClick={(event) => {
          // A press that turned the view is not a choice; glass and ghosts let the choice through.
          if (event.delta > 3 || look === 'ghost') return;
          event.stopPropagation();
          onPick();
        }}
      />
      <lineSegments geometry={geometry.edges} material={lines} renderOrder={look === 'solid' ? 3 : order} />
    </group>
  );
}
