import { useThree } from '@react-three/fiber';
import { useEffect } from 'react';
import { useView } from '../state/viewStore.ts';

/** Calls `onChange` when the WebGL context of the picture is lost, and when it is restored. */
export function ContextWatch({ onChange }: { onChange(lost: boolean): void }) {
  const { gl, invalidate } = useThree();
  useEffect(() => {
    const canvas = gl.domElement;
    const keepView = () => {
      const { camera, requestView } = useView.getState();
      if (camera !== undefined) requestView('kept');
    };
    const onLost = () => {
      keepView();
      onChange(true);
    };
    const onRestored = () => {
      keepView();
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
