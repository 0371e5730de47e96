import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { withValue } from '../../src/design/edit.ts';
import { isDimension } from '../../src/design/inputs.ts';
import { parseChanged, parseDesign } from '../../src/design/parse.ts';
import { type Path, pathFrom } from '../../src/design/path.ts';
import { readDesign } from './readDesign.ts';

const DEMO = readFileSync(new URL('../../demo-data/gravelbeck.corner.json', import.meta.url), 'utf8');

const VALUES = [12.5, -1, '3 1/2 in', 'wide', 250, 50];

const parsed = (read: ReturnType<typeof parseDesign>) =>
  read.kind === 'bad' ? read : { corner: read.design.corner, hash: read.design.hash };

it('reads a changed file as its text is read, whether the change is right or wrong', () => {
  const design = readDesign(DEMO);
  const paths = design.inputs
    .map(({ path }) => pathFrom(path))
    .filter((path): path is Path => path !== undefined && isDimension(path))
    .filter((_, k) => k % 2 === 0);
  const others: [Path, unknown][] = [
    [['name'], 'Other'],
    [['name'], 7],
    [['unit'], 'mm'],
    [['unit'], undefined],
    [['originHeight'], 100],
    [['measuredTo'], undefined],
    [['assets'], ['a.csv']],
    [['unknown'], 1],
    [['parts'], []],
    [['parts', 3], undefined],
    [['pairs'], undefined],
    [['suspension'], undefined],
  ];
  const changes = [...paths.map((path, k): [Path, unknown] => [path, VALUES[k % VALUES.length]]), ...others];
  let wrong = 0;
  for (const [path, value] of changes) {
    const source = withValue(design.source, path, value);
    const [fast, whole] = [
      parseChanged(design, source),
      parseDesign(JSON.stringify(source), design.assets, false),
    ];
    if (whole.kind === 'bad') wrong++;
    expect(parsed(fast), `${path.join('.')} = ${value}`).toEqual(parsed(whole));
  }
  expect(wrong).toBeGreaterThan(30);
  expect(changes.length - wrong).toBeGreaterThan(30);
});

it('keeps the objects of the pieces that stay', () => {
  const design = readDesign(DEMO);
  const read = parseChanged(design, withValue(design.source, ['parts', 0, 'width'], 200));
  if (read.kind === 'bad') throw new Error(JSON.stringify(read.problems));
  const { corner } = read.design;
  expect(corner.suspension).toBe(design.corner.suspension);
  expect(corner.parts.map((part, p) => part === design.corner.parts[p])).toEqual(
    design.corner.parts.map((_, p) => p !== 0),
  );
});
