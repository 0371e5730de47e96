import { useFrame } from '@react-three/fiber';
import { useRef } from 'react';
import type { DirectionalLight } from 'three';

/** Hemisphere light and a directional light that follows the camera. */
export function Lights() {
  const cameraLight = useRef<DirectionalLight>(null);
  useFrame(({ camera }) => {
    cameraLight.current?.position.set(0.35, 0.5, 1).applyQuaternion(camera.quaternion);
  });
  return (
    <>
      <hemisphereLight position={[0, 0, 1]} args={['#ffffff', '#8a8578', 1.75]} />
      <directionalLight ref={cameraLight} intensity={1.7} />
    </>
  );
}
