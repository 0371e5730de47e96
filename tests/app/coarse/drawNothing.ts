/** WebGL draws nothing from now on. All else goes on: shaders are compiled, buffers filled, frames ended. */
export function drawNothing(): void {
  const { prototype } = WebGL2RenderingContext;
  Object.assign(prototype, { drawArrays() {}, drawElements() {} });
}
