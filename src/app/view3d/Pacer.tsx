import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useRef } from 'react';
import { setDrawing } from '../kit/afterPicture.ts';

/** Interval between checks whether a frame is finished, ms. */
const POLL_MS = 4;

/**
 * Draws a frame only after the graphics card has finished the previous one, and only while `due`. Reason: with slow drawing,
 * frames would queue up and block the page for seconds.
 */
export function Pacer({ due }: { due: boolean }) {
  const invalidate = useThree((state) => state.invalidate);
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  const heldBack = useRef(false);
  useEffect(
    () => () => {
      clearTimeout(timer.current);
      setDrawing(false);
    },
    [],
  );
  useEffect(() => {
    if (due) invalidate();
  }, [due, invalidate]);

  // With a priority above 0 this callback replaces the default rendering.
  useFrame(({ gl, scene, camera }) => {
    if (!due) return;
    if (timer.current !== undefined) {
      heldBack.current = true;
      return;
    }
    gl.render(scene, camera);
    setDrawing(true);
    const context = gl.getContext() as WebGL2RenderingContext;
    const drawn = context.fenceSync(context.SYNC_GPU_COMMANDS_COMPLETE, 0);
    context.flush();
    const poll = () => {
      // A fence created before a context loss has no status after the context is restored.
      const done =
        drawn === null || context.getSyncParameter(drawn, context.SYNC_STATUS) !== context.UNSIGNALED;
      timer.current = done ? undefined : setTimeout(poll, POLL_MS);
      if (!done) return;
      context.deleteSync(drawn);
      setDrawing(false);
      if (heldBack.current) invalidate();
      heldBack.current = false;
    };
    timer.current = setTimeout(poll, POLL_MS);
  }, 1);
  return null;
}
