import { readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join, relative, resolve, sep } from 'node:path';
import { describe, expect, it } from 'vitest';

const SRC = resolve(import.meta.dirname, '../src');

/** Lowest first: a layer imports itself and what stands before it. */
const LAYERS = [
  'units',
  'math',
  'layouts',
  'design',
  'mechanism',
  'solids',
  'clearance',
  'sweep',
  'proof',
  'executors',
  'findings',
  'studies',
  'report',
  'cli',
  'app',
  'guide',
  'bundle',
];
/** Floors of the app, lowest first. `main.tsx` stands above all. */
const FLOORS = ['kit', 'state', 'workers', 'view3d', 'map', 'charts', 'tools', 'sheets', 'shell'];
/** Below these, no screen and no platform. */
const PLATFORM_FROM = LAYERS.indexOf('executors');
/** Layers of the files in `src/parts`, by their names: each kind has a folder with one file for each layer. */
const PART_LAYERS: Readonly<Record<string, string>> = {
  'kind.ts': 'design',
  'kinds.ts': 'design',
  'kindOf.ts': 'design',
  'partKind.ts': 'design',
  'partSchema.ts': 'design',
  'build.ts': 'solids',
  'builders.ts': 'solids',
  'flatPlates.ts': 'solids',
  'plateMakers.ts': 'solids',
  'workbench.ts': 'app',
  'workbenchKind.ts': 'app',
  'workbenchKinds.ts': 'app',
};
const THREE_IN = new Set(['solids', 'clearance', 'app']);

interface Import {
  file: string;
  layer: string;
  target: string;
}

function sourceFiles(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return sourceFiles(path);
    return /(?<!\.d)\.(ts|tsx|js)$/.test(entry.name) ? [path] : [];
  });
}

const layerOf = (path: string) => {
  const [layer] = relative(SRC, path).split(sep);
  return layer === 'parts' ? (PART_LAYERS[basename(path)] ?? path) : layer;
};

const files = sourceFiles(SRC);
const imports: Import[] = files.flatMap((path) => {
  const text = readFileSync(path, 'utf8');
  const found = text.matchAll(
    /(?:\bfrom|\bimport|\bimport\()\s*['"]([^'"]+)['"]|new URL\(\s*['"]([^'"]+)['"]/g,
  );
  return [...found].map((match) => ({
    file: relative(SRC, path),
    layer: layerOf(path),
    target: match[1] ?? match[2],
  }));
});

const bad = (wrong: (one: Import) => boolean) =>
  imports.filter(wrong).map((one) => `${one.file} imports ${one.target}`);

describe('layers', () => {
  it('scans the source', () => {
    expect(files.length).toBeGreaterThan(40);
    expect(imports.length).toBeGreaterThan(100);
    const scanned = new Set(files.map(layerOf));
    for (const layer of LAYERS) expect(scanned).toContain(layer);
    expect([...scanned].filter((name) => !LAYERS.includes(name))).toEqual([]);
  });

  it('imports only go up the list', () => {
    const inner = imports.filter((one) => one.target.startsWith('.'));
    const wrong = inner.filter((one) => {
      const target = layerOf(resolve(SRC, dirname(one.file), one.target));
      const known = LAYERS.includes(target) || target === '..';
      return !known || LAYERS.indexOf(target) > LAYERS.indexOf(one.layer);
    });
    expect(wrong).toEqual([]);
    expect(inner.length).toBeGreaterThan(80);
  });

  it('floors of the app import only those before them', () => {
    const floorOf = (path: string) =>
      path.startsWith(join(SRC, 'parts')) ? 'state' : relative(join(SRC, 'app'), path).split(sep)[0];
    const inApp = imports.filter((one) => one.layer === 'app' && one.target.startsWith('.'));
    const wrong = inApp.filter((one) => {
      const [from, target] = [resolve(SRC, one.file), resolve(SRC, dirname(one.file), one.target)];
      if (layerOf(target) !== 'app' || target.endsWith('.css')) return false;
      const floor = FLOORS.indexOf(floorOf(from));
      return floor < 0 ? floorOf(from) !== 'main.tsx' : FLOORS.indexOf(floorOf(target)) > floor;
    });
    expect(wrong).toEqual([]);
    expect(new Set(files.filter((path) => layerOf(path) === 'app').map(floorOf))).toEqual(
      new Set([...FLOORS, 'main.tsx']),
    );
    expect(inApp.length).toBeGreaterThan(500);
  });

  it('no file imports itself by way of others', () => {
    const targets = new Map<string, string[]>();
    for (const { file, target } of imports)
      if (target.startsWith('.'))
        targets.set(file, [...(targets.get(file) ?? []), relative(SRC, resolve(SRC, dirname(file), target))]);
    const done = new Set<string>();
    const circles: string[] = [];
    const visit = (file: string, path: readonly string[]): void => {
      if (path.includes(file)) circles.push([...path.slice(path.indexOf(file)), file].join(' > '));
      if (path.includes(file) || done.has(file)) return;
      for (const target of targets.get(file) ?? []) visit(target, [...path, file]);
      done.add(file);
    };
    for (const file of targets.keys()) visit(file, []);
    expect(circles).toEqual([]);
  });

  it('exports only values that another file uses', () => {
    const others = [...sourceFiles(import.meta.dirname), resolve(SRC, '../vite.config.ts')];
    const texts = [...files, ...others].map((path) => ({
      path,
      text: readFileSync(path, 'utf8'),
    }));
    const unused = texts.slice(0, files.length).flatMap(({ path, text }) => {
      // A file that uses a value names the file that exports it.
      const users = texts.filter((one) => one.path !== path && one.text.includes(basename(path)));
      return [...text.matchAll(/^export (?:async )?(?:const|let|function\*?|class) (\w+)/gm)]
        .filter(([, name]) => !users.some((user) => new RegExp(`\\b${name}\\b`).test(user.text)))
        .map(([, name]) => `${relative(SRC, path)}: ${name}`);
    });
    expect(unused).toEqual([]);
  });

  it('the command line and the app do not know each other', () => {
    expect(bad((one) => one.layer === 'app' && /(^|\/)cli\//.test(one.target))).toEqual([]);
    expect(bad((one) => one.layer === 'cli' && /(^|\/)app\//.test(one.target))).toEqual([]);
  });

  it('no screen and no platform below the executors', () => {
    const platform = /^(node:|react|react-dom|@react-three|zustand)/;
    expect(bad((one) => LAYERS.indexOf(one.layer) < PLATFORM_FROM && platform.test(one.target))).toEqual([]);
    const globals = /\b(document|window|navigator|localStorage|process)\s*\./;
    const using = files.filter(
      (path) =>
        LAYERS.indexOf(layerOf(path)) < PLATFORM_FROM &&
        globals.test(readFileSync(path, 'utf8').replace(/\/\*[\s\S]*?\*\/|\/\/.*/g, '')),
    );
    expect(using.map((path) => relative(SRC, path))).toEqual([]);
  });

  it('three only where solids are made, searched or shown', () => {
    const three = /^(three|three-mesh-bvh|@react-three)(\/|$)/;
    expect(bad((one) => three.test(one.target) && !THREE_IN.has(one.layer))).toEqual([]);
  });
});
