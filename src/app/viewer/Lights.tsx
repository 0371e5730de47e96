import { useFrame } from '@react-three/fiber';
import { useRef } from 'react';
import type { DirectionalLight } from 'three';

/** The light of the sky, and one that comes over the viewer's shoulder. */
export function Lights() {
  const shoulder = useRef<DirectionalLight>(null);
  useFrame(({ camera }) => {
    shoulder.current?.position.set(0.35, 0.5, 1).applyQuaternion(camera.quaternion);
  });
  return (
    <>
      <hemisphereLight position={[0, 0, 1]} args={['#ffffff', '#8a8578', 1.75]} />
      <directionalLight ref={shoulder} intensity={1.7} />
    </>
  );
}
