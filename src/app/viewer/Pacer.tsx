import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useRef } from 'react';

/** How often it is asked whether a frame has been drawn, ms. */
const ASK_MS = 4;

/**
 * Draws a frame only when the one before has left the graphics card. Where drawing is slow, frames asked for faster than
 * they can be drawn would otherwise queue, and the page stand still for seconds until the queue was done. Draws none that
 * is not due.
 */
export function Pacer({ due }: { due: boolean }) {
  const invalidate = useThree((state) => state.invalidate);
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  const heldBack = useRef(false);
  useEffect(() => () => clearTimeout(timer.current), []);
  useEffect(() => {
    if (due) invalidate();
  }, [due, invalidate]);

  // A priority above 0 takes the drawing over.
  useFrame(({ gl, scene, camera }) => {
    if (!due) return;
    if (timer.current !== undefined) {
      heldBack.current = true;
      return;
    }
    gl.render(scene, camera);
    const context = gl.getContext() as WebGL2RenderingContext;
    const drawn = context.fenceSync(context.SYNC_GPU_COMMANDS_COMPLETE, 0);
    context.flush();
    const ask = () => {
      const done =
        drawn === null ||
        context.isContextLost() ||
        context.getSyncParameter(drawn, context.SYNC_STATUS) === context.SIGNALED;
      timer.current = done ? undefined : setTimeout(ask, ASK_MS);
      if (!done) return;
      context.deleteSync(drawn);
      if (heldBack.current) invalidate();
      heldBack.current = false;
    };
    timer.current = setTimeout(ask, ASK_MS);
  }, 1);
  return null;
}
