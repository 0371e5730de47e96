import { describe, expect, it } from 'vitest';
import { readChosen } from '../../../../src/app/state/keep/chosenFiles.ts';
import { assetRecords } from '../../../../src/design/assets.ts';

const file = (name: string, content: string) => new File([content], name);
const corner = (...assets: string[]) => file('new.corner.json', JSON.stringify({ name: 'New', assets }));

describe('files chosen together', () => {
  it('are the corner file, in any place, and the files that it lists', async () => {
    const chosen = await readChosen([file('b.stl', 'body'), corner('b.stl', 'a.json'), file('a.json', '{}')]);
    if (chosen.kind === 'rejected') throw new Error(JSON.stringify(chosen.problems));
    expect(chosen.fileName).toBe('new.corner.json');
    expect(JSON.parse(chosen.text)).toMatchObject({ name: 'New' });
    expect(assetRecords(chosen.assets).map(({ name, bytes }) => [name, bytes])).toEqual([
      ['b.stl', 4],
      ['a.json', 2],
    ]);
    expect(chosen.onDisk).toBeUndefined();
  });

  it('leave a missing file to the reader of the corner', async () => {
    expect(await readChosen([corner('b.stl')])).toMatchObject({ kind: 'corner', assets: new Map() });
  });

  it.each([
    ['with a file that is not listed', [corner(), file('photo.jpg', 'x')], 'assets', 'photo.jpg'],
    ['with two corners', [corner(), file('old.corner.json', '{}')], '', 'old.corner.json'],
    ['without a corner', [file('b.stl', 'x')], '', ''],
  ])('are rejected %s', async (_, files, path, found) => {
    const chosen = await readChosen(files);
    expect(chosen).toMatchObject({ kind: 'rejected', problems: [{ path, found }] });
  });
});
