import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { WebIO } from '@gltf-transform/core';
import DxfParser from 'dxf-parser';
import { strFromU8, unzipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isClosed, weld } from '../../src/clearance/weld.ts';
import { applyPoint } from '../../src/math/rigid.ts';
import { solvePose } from '../../src/mechanism/mechanism.ts';
import { buildSolids } from '../../src/solids/catalogue.ts';
import type { Mesh } from '../../src/solids/solid.ts';
import { volumeOf } from '../../src/studies/sweptSpace/sweepBody.ts';
import { mechanismOf } from '../../src/sweep/setUp.ts';
import { readDesign } from '../design/readDesign.ts';
import { digest } from '../oracles/digest.ts';
import { mulberry32 } from '../oracles/random.ts';
import { goesRound } from '../studies/sweptSpace/solidChecks.ts';
import { daylight, type Ran } from './run.ts';

const FILE = 'demo-data/larkrise.corner.json';

/** The triangles of a binary STL file, each with its own vertices. */
function stlMesh({ buffer }: Uint8Array<ArrayBuffer>): Mesh {
  const view = new DataView(buffer);
  const count = view.getUint32(80, true);
  const positions = new Float64Array(9 * count);
  for (let t = 0; t < count; t++)
    for (let k = 0; k < 9; k++) positions[9 * t + k] = view.getFloat32(84 + 50 * t + 12 + 4 * k, true);
  return { positions, triangles: Uint32Array.from({ length: 3 * count }, (_, i) => i) };
}

describe('daylight space', () => {
  const folder = mkdtempSync(join(tmpdir(), 'daylight-space-'));
  let ran: Ran;
  beforeAll(async () => {
    const range = ['--travel', '-20mm..30mm', '--steer', '-0.5..1', '--accuracy', '50mm'];
    const planes = ['--planes', 'z=500 mm;z=5000 mm'];
    ran = await daylight(['space', FILE, '--out', folder, ...range, ...planes]);
  }, 200_000);
  afterAll(() => rmSync(folder, { recursive: true }));
  const bytes = (name: string) => new Uint8Array(readFileSync(join(folder, name)));

  /** The STL, read by its specification and welded. */
  const stl = (): Mesh => weld(stlMesh(bytes('space.stl')));

  it('prints the bound, and says which planes are crossed', () => {
    expect(ran).toMatchObject({ code: 0 });
    expect(ran.stdout).toMatch(/No point of it is more than 50\.\d* mm outside the true swept space/);
    expect(ran.stdout).toMatch(/Plane z=500 mm: crossed by/);
    expect(ran.stdout).toMatch(/Plane z=5000 mm: not crossed/);
  });

  it('contains every vertex of tyre and wheel at random poses between the steps', async () => {
    const mesh = stl();
    expect(isClosed(mesh)).toBe(true);
    const { corner } = readDesign(readFileSync(FILE, 'utf8'));
    const solids = (await buildSolids(corner, 2)).filter(({ kind }) => kind === 'tyre' || kind === 'wheel');
    expect(solids).toHaveLength(2);
    const mechanism = mechanismOf(corner);
    const seed = 41;
    const next = mulberry32(seed);
    for (let k = 0; k < 60; k++) {
      const pose = solvePose(mechanism, -20 + 50 * next(), -0.5 + 1.5 * next());
      if (pose.kind !== 'solved') throw new Error(`seed ${seed}: ${pose.reason}`);
      const { positions } = solids[k % 2].mesh;
      const at = 3 * Math.floor((next() * positions.length) / 3);
      const point = applyPoint(pose.carriers.wheel, [positions[at], positions[at + 1], positions[at + 2]]);
      expect(goesRound(mesh, point), `seed ${seed}, case ${k}`).toBe(1);
    }
  }, 60_000);

  it('writes the same closed solid in each format, in the unit of the format', async () => {
    const volume = volumeOf(stl());
    expect(volume).toBeGreaterThan(0);

    const model = strFromU8(unzipSync(bytes('space.3mf'))['3D/3dmodel.model']);
    expect(model).toContain('unit="millimeter"');
    const numbers = (pattern: RegExp) => [...model.matchAll(pattern)].flatMap((m) => m.slice(1).map(Number));
    const fromModel = {
      positions: Float64Array.from(numbers(/<vertex x="(\S+)" y="(\S+)" z="(\S+)"\/>/g)),
      triangles: Uint32Array.from(numbers(/<triangle v1="(\d+)" v2="(\d+)" v3="(\d+)"\/>/g)),
    };
    expect(isClosed(fromModel)).toBe(true);
    expect(volumeOf(fromModel) / volume).toBeCloseTo(1, 6);

    const document = await new WebIO().readBinary(bytes('space.glb'));
    const [primitive] = document.getRoot().listMeshes()[0].listPrimitives();
    const fromGlb = {
      positions: Float64Array.from(primitive.getAttribute('POSITION')?.getArray() ?? []),
      triangles: Uint32Array.from(primitive.getIndices()?.getArray() ?? []),
    };
    expect(isClosed(fromGlb)).toBe(true);
    expect((volumeOf(fromGlb) * 1e9) / volume).toBeCloseTo(1, 4);
  });

  it('draws the section of a plane that meets the solid, in millimetres', () => {
    const drawing = new DxfParser().parseSync(readFileSync(join(folder, 'section-1.dxf'), 'utf8'));
    expect(drawing?.header.$INSUNITS).toBe(4);
    expect(drawing?.entities.length).toBeGreaterThan(0);
    expect(() => readFileSync(join(folder, 'section-2.dxf'))).toThrow(/ENOENT/);
  });

  it('writes the mirror image for a right corner', async () => {
    const left = JSON.parse(readFileSync(FILE, 'utf8'));
    expect(left.side).toBe('left');
    const file = join(folder, 'right.corner.json');
    writeFileSync(file, JSON.stringify({ ...left, side: 'right' }));
    const spaces = [FILE, file].map(async (of, k) => {
      const out = join(folder, `side-${k}`);
      const range = ['--travel', '0mm..10mm', '--steer', '-0.1..0.1', '--accuracy', '60mm'];
      const { code } = await daylight([
        'space',
        of,
        '--out',
        out,
        ...range,
        '--format',
        'stl,3mf',
        '--planes',
        'y=700mm',
      ]);
      expect(code).toBe(0);
      const model = strFromU8(unzipSync(bytes(`side-${k}/space.3mf`))['3D/3dmodel.model']);
      const dxf = new DxfParser().parseSync(readFileSync(join(out, 'section-1.dxf'), 'utf8'));
      return { stl: stlMesh(bytes(`side-${k}/space.stl`)), model, dxf };
    });
    const [one, other] = await Promise.all(spaces);
    const mirrored = (positions: ArrayLike<number>) =>
      Float64Array.from(positions, (c, i) => (i % 3 === 1 ? -c : c));
    // The corners of each triangle are in the other order, so that it faces outward.
    const turned = Array.from(one.stl.positions, (_, i) => {
      const corner = Math.floor(i / 3) % 3;
      return one.stl.positions[i + 3 * [0, 1, -1][corner]];
    });
    expect(other.stl.positions.length).toBeGreaterThan(9000);
    expect(digest(other.stl.positions)).toBe(digest(mirrored(turned)));
    expect(volumeOf(other.stl) / volumeOf(one.stl)).toBeCloseTo(1, 9);
    const vertices = (model: string) =>
      Float64Array.from(
        [...model.matchAll(/<vertex x="(\S+)" y="(\S+)" z="(\S+)"\/>/g)].flatMap((m) =>
          m.slice(1).map(Number),
        ),
      );
    expect(digest(vertices(other.model))).toBe(digest(mirrored(vertices(one.model))));
    expect(other.dxf?.entities.length).toBe(one.dxf?.entities.length);
    expect(one.dxf?.entities.length).toBeGreaterThan(0);
  }, 120_000);

  it.each([
    [['--travel', '30mm..-20mm'], /--travel: "30mm\.\.-20mm" is not allowed\. Give two lengths/],
    [['--steer', '-2..1'], /--steer: "-2\.\.1" is not allowed\. Give two numbers from -1 to 1/],
    [['--keep-free', '-1mm'], /--keep-free: .*Give a length from 0 to 200 mm/],
    [['--planes', 'w=3'], /--planes: "w=3" is not a plane\. Give x=LENGTH/],
    [['--format', 'obj'], /--format: "obj" is not a format\. Give stl, 3mf, glb/],
    [['--travel', '-1500mm..0mm'], /locks out near travel .* give a smaller range/],
  ])(
    'rejects %j with option, value and remedy',
    async (options, message) => {
      const refused = await daylight(['space', FILE, '--out', folder, ...options]);
      expect(refused.code).toBe(64);
      expect(refused.stderr).toMatch(message);
    },
    60_000,
  );
});
