import { expect, it, vi } from 'vitest';
import { COARSE } from '../app/coarse/settings.ts';
import { minimalCorner } from '../design/fixtures.ts';

/** Number of builds until the modeller's memory has the size that one corner needs. */
const FIRST = 6;
const MORE = 20;

it('frees every object of the modeller after each change of a corner', async () => {
  let memory: WebAssembly.Memory | undefined;
  const { instantiate } = WebAssembly;
  vi.spyOn(WebAssembly, 'instantiate').mockImplementation((async (source: BufferSource, imports: object) => {
    const made = await instantiate(source, imports as WebAssembly.Imports);
    const found = Object.values(made.instance.exports).find((one) => one instanceof WebAssembly.Memory);
    memory ??= found as WebAssembly.Memory | undefined;
    return made;
  }) as unknown as typeof instantiate);
  // Other test files may have loaded the modeller; its memory is observed from its first load on.
  vi.resetModules();
  const { parseDesign } = await import('../../src/design/parse.ts');
  const { buildCorner, SetupMemory } = await import('../../src/sweep/setUp.ts');
  const corner = minimalCorner();
  const kept = new SetupMemory();
  const bytes: number[] = [];
  for (let change = 0; change < FIRST + MORE; change++) {
    Object.assign(corner.parts[0], { width: `${200 + change} mm` });
    const parsed = parseDesign(JSON.stringify(corner));
    if (parsed.kind === 'bad') throw new Error(JSON.stringify(parsed.problems));
    await buildCorner(parsed.design, COARSE, kept);
    bytes.push(memory?.buffer.byteLength ?? 0);
  }
  expect(bytes[0]).toBeGreaterThan(0);
  expect(new Set(bytes.slice(FIRST))).toEqual(new Set([bytes[FIRST - 1]]));
});
