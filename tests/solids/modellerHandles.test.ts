import { expect, it, vi } from 'vitest';
import { COARSE } from '../app/coarse/settings.ts';
import { minimalCorner } from '../design/fixtures.ts';

/** Builds before the modeller's memory is as large as one corner needs. */
const FIRST = 6;
const MORE = 20;

it('frees all that the modeller makes for a corner, however often it is changed', async () => {
  let memory: WebAssembly.Memory | undefined;
  const { instantiate } = WebAssembly;
  vi.spyOn(WebAssembly, 'instantiate').mockImplementation((async (source: BufferSource, imports: object) => {
    const made = await instantiate(source, imports as WebAssembly.Imports);
    const found = Object.values(made.instance.exports).find((one) => one instanceof WebAssembly.Memory);
    memory ??= found as WebAssembly.Memory | undefined;
    return made;
  }) as unknown as typeof instantiate);
  // Loaded only now, so that the memory of the module is seen.
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
