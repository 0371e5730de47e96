import { WebGLRenderer, type WebGLRendererParameters } from 'three';
import { pause } from '../pause.ts';

/**
 * Makes the renderer of a canvas. To have the context, to ask what it can do and to set it up wait for the graphics card
 * each, so that each is a task of its own. Throws an Error where the browser has no WebGL 2.
 */
export async function makeRenderer(options: WebGLRendererParameters): Promise<WebGLRenderer> {
  const { alpha, antialias, powerPreference } = options;
  const canvas = options.canvas as HTMLCanvasElement;
  await pause(0);
  const context = canvas.getContext('webgl2', { alpha, antialias, powerPreference });
  await pause(0);
  // Without a context the renderer looks for one itself, and says why there is none.
  const renderer = new WebGLRenderer({ ...options, context: context ?? undefined });
  await pause(0);
  return renderer;
}
