import { WebGLRenderer, type WebGLRendererParameters } from 'three';
import { pause } from '../pause.ts';

/** The browser has no WebGL 2 context to draw with. */
export class NoGraphics extends Error {
  constructor() {
    super('WebGL 2 is missing or switched off in this browser');
  }
}

/**
 * Makes the renderer of a canvas. To have the context, to ask what it can do and to set it up wait for the graphics card
 * each, so that each is a task of its own. Throws `NoGraphics` where the browser has no WebGL 2.
 */
export async function makeRenderer(options: WebGLRendererParameters): Promise<WebGLRenderer> {
  const { alpha, antialias, powerPreference } = options;
  const canvas = options.canvas as HTMLCanvasElement;
  await pause(0);
  const context = canvas.getContext('webgl2', { alpha, antialias, powerPreference });
  if (context === null) throw new NoGraphics();
  await pause(0);
  const renderer = new WebGLRenderer({ ...options, context });
  await pause(0);
  return renderer;
}
