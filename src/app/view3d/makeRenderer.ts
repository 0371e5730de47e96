import { WebGLRenderer, type WebGLRendererParameters } from 'three';
import { pause } from '../kit/pause.ts';

/** Thrown if the browser has no WebGL 2. */
export class NoGraphics extends Error {
  constructor() {
    super('WebGL 2 is missing or switched off in this browser');
  }
}

/**
 * Makes the renderer of a canvas. Creating the context, querying it and setting it up each wait for the graphics card, so
 * they run in separate tasks. Throws `NoGraphics` if the browser has no WebGL 2.
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
