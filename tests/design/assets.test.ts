import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { type Assets, assetNamesIn, assetOf, assetRecords } from '../../src/design/assets.ts';
import type { Design } from '../../src/design/design.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { assetNameFault } from '../../src/units/plainText.ts';
import type { Problem } from '../../src/units/problem.ts';
import { minimalCorner } from './fixtures.ts';

const bytesOf = (text: string) => new TextEncoder().encode(text);
const assetsOf = (texts: Record<string, string>): Assets =>
  new Map(Object.entries(texts).map(([name, text]) => [name, assetOf(bytesOf(text))]));
const withNames = (...names: unknown[]) => JSON.stringify({ ...minimalCorner(), assets: names });

function designOf(text: string, assets?: Assets): Design {
  const read = parseDesign(text, assets);
  if (read.kind === 'bad') throw new Error(JSON.stringify(read.problems));
  return read.design;
}

function problemsOf(text: string, assets?: Assets): Problem[] {
  const read = parseDesign(text, assets);
  return read.kind === 'bad' ? read.problems : [];
}

describe('assets of a design', () => {
  const both = { 'b.stl': 'body', 'a.step': 'arm' };

  it('are those that the corner lists, sorted by name, with size and SHA-256', () => {
    const design = designOf(withNames('b.stl', 'a.step'), assetsOf({ ...both, 'photo.jpg': 'x' }));
    const sha256 = (text: string) => createHash('sha256').update(text).digest('hex');
    expect(assetRecords(design.assets)).toEqual([
      { name: 'a.step', bytes: 3, sha256: sha256('arm') },
      { name: 'b.stl', bytes: 4, sha256: sha256('body') },
    ]);
  });

  it('keep every byte', async () => {
    const bytes = Uint8Array.from({ length: 256 }, (_, k) => k);
    expect(new Uint8Array(await assetOf(bytes).content.arrayBuffer())).toEqual(bytes);
  });

  it('change the hash with their content and names, not with the order of the list or other files', () => {
    const none = designOf(JSON.stringify(minimalCorner())).hash;
    expect(designOf(withNames()).hash).toBe(none);
    const one = designOf(withNames('b.stl', 'a.step'), assetsOf(both)).hash;
    expect(designOf(withNames('a.step', 'b.stl'), assetsOf({ ...both, other: 'x' })).hash).toBe(one);
    const others = [
      designOf(withNames('b.stl', 'a.step'), assetsOf({ ...both, 'b.stl': 'bodY' })).hash,
      designOf(withNames('b.stl', 'c.step'), assetsOf({ 'b.stl': 'body', 'c.step': 'arm' })).hash,
      designOf(withNames('b.stl'), assetsOf(both)).hash,
    ];
    expect(new Set([none, one, ...others]).size).toBe(5);
  });

  it('are reported if they are missing or listed twice, with all other problems', () => {
    const text = JSON.stringify({ ...minimalCorner(), side: 'top', assets: ['a.step', 'a.step', 'c.stl'] });
    const problems = problemsOf(text, assetsOf(both));
    expect(problems.map(({ path, found }) => [path, found])).toEqual([
      ['side', '"top"'],
      ['assets[1]', '"a.step"'],
      ['assets[2]', '"c.stl"'],
    ]);
    expect(problems[1].message).toMatch(/^is listed twice; remove one/);
    expect(problems[2].message).toMatch(/^is not beside the corner file; put the file into the same folder/);
  });
});

describe('names of assets', () => {
  it.each(['bracket.stl', 'Radnabe vorne.step', '..hidden', 'a..b.stl'])('accept %j', (name) => {
    expect(assetNameFault(name)).toBeUndefined();
  });

  it.each([
    ['', /^is empty/],
    ['.', /^is a folder/],
    ['..', /^is a folder/],
    ['../secret', /path separator \//],
    ['/etc/passwd', /path separator \//],
    ['a\\b.stl', /path separator \\/],
    ['C:a.stl', /path separator :/],
    ['a\nb', /line break/],
  ])('reject %j, and no file of that name is looked for', (name, message) => {
    expect(assetNameFault(name)).toMatch(message);
    expect(assetNamesIn(withNames(name, 'b.stl'))).toEqual(['b.stl']);
    const [problem, ...others] = problemsOf(withNames(name), new Map([[name, assetOf(bytesOf('x'))]]));
    expect(others).toEqual([]);
    expect(problem).toMatchObject({ path: 'assets[0]', message: expect.stringMatching(message) });
  });

  it('are none if the file cannot be read or lists something else', () => {
    expect(assetNamesIn('{"assets": [')).toEqual([]);
    expect(assetNamesIn('{"assets": "a.stl"}')).toEqual([]);
    expect(problemsOf(withNames(7))[0].path).toBe('assets[0]');
  });
});
