import { useThree } from '@react-three/fiber';
import { useEffect, useMemo } from 'react';
import type { BufferGeometry } from 'three';
import { useTokens } from '../../kit/tokens.ts';
import { setOpacity } from '../../view3d/partMaterial.ts';
import { neutralTone } from './neutralTone.ts';
import { ShadeMaterial } from './ShadeMaterial.ts';

interface ShadedFacesProps {
  geometry: BufferGeometry;
  opacity: number;
  renderOrder: number;
}

/** Ray casts use the part's own mesh, which has fewer triangles. */
const noRaycast = () => null;

/** A surface with the gap tint. */
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
      raycast={noRaycast}
      geometry={geometry}
      material={material}
      {...more}
    />
  );
}
