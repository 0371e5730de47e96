import { afterEach, describe, expect, it, vi } from 'vitest';
import { useDocument } from '../../../../src/app/state/documentStore.ts';
import { save } from '../../../../src/app/state/keep/files.ts';
import { saveTogether } from '../../../../src/app/state/keep/saveTogether.ts';
import { assetOf } from '../../../../src/design/assets.ts';

/** A folder with files, as a browser gives it to a page. */
class Folder {
  readonly name = 'corners';
  readonly files = new Map<string, string>();

  async *keys() {
    yield* this.files.keys();
  }

  async getFileHandle(name: string) {
    const { files } = this;
    return {
      name,
      getFile: async () => new File([files.get(name) ?? ''], name, { lastModified: 7 }),
      createWritable: async () => ({
        write: async (data: Blob) => void files.set(name, await data.text()),
        close: async () => {},
      }),
    };
  }
}

const FILES = [
  { name: 'b.stl', data: new Blob(['body']) },
  { name: 'new.corner.json', data: new Blob(['{}']) },
];

describe('files saved together', () => {
  afterEach(() => void vi.unstubAllGlobals());

  const pageWith = (folder: Folder, confirm: (question: string) => boolean) =>
    vi.stubGlobal('window', { showDirectoryPicker: async () => folder, confirm });

  it('are written into the chosen folder; the last one can be written over later', async () => {
    const folder = new Folder();
    pageWith(folder, () => false);
    expect(await saveTogether(FILES)).toMatchObject({ name: 'new.corner.json' });
    expect([...folder.files]).toEqual([
      ['b.stl', 'body'],
      ['new.corner.json', '{}'],
    ]);
  });

  it('overwrite files of the folder only after a question', async () => {
    const folder = new Folder();
    folder.files.set('b.stl', 'old').set('other.txt', 'kept');
    const questions: string[] = [];
    pageWith(folder, (question) => questions.push(question) > 1);
    await expect(saveTogether(FILES)).rejects.toMatchObject({ name: 'AbortError' });
    expect(questions).toEqual(['corners already has b.stl. Overwrite?']);
    expect(folder.files.get('b.stl')).toBe('old');
    await saveTogether(FILES);
    expect([...folder.files.values()]).toEqual(['body', 'kept', '{}']);
  });

  it('are a corner and its assets, and the corner is then the file on disk', async () => {
    const folder = new Folder();
    pageWith(folder, () => false);
    const source = { name: 'New', assets: ['b.stl'] };
    useDocument.setState({
      fileName: 'new.corner.json',
      assets: new Map([['b.stl', assetOf(new TextEncoder().encode('body'))]]),
      changes: [{ label: 'Opened', source, at: new Date(0), merge: undefined }],
      now: 0,
    });
    expect(await save()).toEqual({ kind: 'saved', names: ['b.stl', 'new.corner.json'] });
    expect(folder.files.get('b.stl')).toBe('body');
    expect(JSON.parse(folder.files.get('new.corner.json') ?? '')).toEqual(source);
    const { saved, onDisk } = useDocument.getState();
    expect(saved).toBe(source);
    expect(onDisk).toMatchObject({ handle: { name: 'new.corner.json' }, lastModified: 7 });
  });
});
