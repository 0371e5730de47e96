import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { expect, it } from 'vitest';
import type { Mesh } from '../../src/solids/solid.ts';
import { buildCorner, SetupMemory, withBodies } from '../../src/sweep/setUp.ts';
import { readDesign } from '../design/readDesign.ts';

setFlagsFromString('--expose-gc');
const collectGarbage = runInNewContext('gc') as () => void;

const CORNERS = 12;

const DEMO = readFileSync(join(import.meta.dirname, '../../demo-data/gravelbeck.corner.json'), 'utf8');

/** The demo with another wheel and hub, and other seats of the hub's bolts. */
function variant(k: number) {
  const source = JSON.parse(DEMO);
  const partOf = (kind: string) => source.parts.find((part: { kind: string }) => part.kind === kind);
  partOf('wheel').width = `${8 + k / 16} in`;
  partOf('hub').studLength = `${40 + k} mm`;
  partOf('hub').mountBoltCircle = `${108 + k / 10} mm`;
  return readDesign(source);
}

it('holds no solid and no body of corners long replaced', async () => {
  const memory = new SetupMemory();
  const meshes: WeakRef<Mesh>[][] = [];
  const bodies: WeakRef<object>[][] = [];
  const settings = { chordToleranceMm: 1, travelSteps: 3, steerSteps: 3, limitMm: 60 };
  for (let k = 0; k < CORNERS; k++) {
    const setup = withBodies(await buildCorner(variant(k), settings, memory), memory);
    meshes.push(setup.solids.map(({ mesh }) => new WeakRef(mesh)));
    bodies.push(setup.bodies.flatMap(({ a, b }) => [new WeakRef(a), new WeakRef(b)]));
  }
  const aliveOf = async (refs: readonly WeakRef<object>[][]) => {
    // A reference that was made or read in a task is held until its end.
    await new Promise((resolve) => setTimeout(resolve));
    collectGarbage();
    return new Set(refs.flat().flatMap((ref) => ref.deref() ?? []));
  };
  const ofLast = (refs: readonly WeakRef<object>[][]) => aliveOf([refs[CORNERS - 1]]);
  const [allMeshes, lastMeshes] = [await aliveOf(meshes), await ofLast(meshes)];
  expect(lastMeshes.size).toBeGreaterThan(10);
  expect(allMeshes.size).toBe(lastMeshes.size);
  const [allBodies, lastBodies] = [await aliveOf(bodies), await ofLast(bodies)];
  expect(allBodies.size).toBe(lastBodies.size);
});
