import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { describe, expect, it } from 'vitest';

const SRC = resolve(import.meta.dirname, '../src');

/** Lowest first: a layer imports itself and what stands before it. */
const LAYERS = [
  'units',
  'math',
  'design',
  'mechanism',
  'solids',
  'clearance',
  'sweep',
  'executors',
  'findings',
  'studies',
  'report',
  'cli',
  'app',
];
/** Below these, no screen and no platform. */
const PLATFORM_FROM = LAYERS.indexOf('executors');
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
    return /\.(ts|tsx|js)$/.test(entry.name) ? [path] : [];
  });
}

const layerOf = (path: string) => relative(SRC, path).split(sep)[0];

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
