import { useThree } from '@react-three/fiber';
import { useEffect, useMemo } from 'react';
import type { BufferGeometry } from 'three';
import { useTokens } from '../tokens.ts';
import { setOpacity } from '../viewer/partMaterial.ts';
import { neutralTone } from './neutralTone.ts';
import { ShadeMaterial } from './ShadeMaterial.ts';

interface ShadedFacesProps {
  geometry: BufferGeometry;
  opacity: number;
  renderOrder: number;
}

/** Whoever looks for parts in the way looks at their own surfaces, of fewer triangles. */
const passedBy = () => null;

/** A surface in the tint of how near the nearest other part is. */
export function ShadedFaces({ geometry, opacity, ...more }: ShadedFacesProps) {
  const tokens = useTokens();
  const invalidate = useThree((state) => state.invalidate);
  const material = useMemo(() => new ShadeMaterial(), []);
  useEffect(() => () => material.dispose(), [material]);
  material.color.copy(neutralTone(tokens));
  material.setColours(tokens.accent, tokens.ink, tokens.touch);
  setOpacity(material, opacity);
  useEffect(() => invalidate());
  return (
    <mesh
      frustumCulled={false}
      name="shaded"
      raycast={passedBy}
      geometry={geometry}
      material={material}
      {...more}
    />
  );
}
