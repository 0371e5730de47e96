import { useThree } from '@react-three/fiber';
import { useEffect } from 'react';
import { useView } from '../stores/viewStore.ts';

/** Tells when the graphics card drops the context that the picture is drawn with, and when it gives it back. */
export function ContextWatch({ onChange }: { onChange(lost: boolean): void }) {
  const { gl, invalidate } = useThree();
  useEffect(() => {
    const canvas = gl.domElement;
    // From where things were seen, they go on being seen.
    const stay = () => {
      const { camera, lookFrom } = useView.getState();
      if (camera !== undefined) lookFrom('kept');
    };
    const onLost = () => {
      stay();
      onChange(true);
    };
    const onRestored = () => {
      stay();
      onChange(false);
      invalidate();
    };
    canvas.addEventListener('webglcontextlost', onLost);
    canvas.addEventListener('webglcontextrestored', onRestored);
    return () => {
      canvas.removeEventListener('webglcontextlost', onLost);
      canvas.removeEventListener('webglcontextrestored', onRestored);
    };
  }, [gl, invalidate, onChange]);
  return null;
}
