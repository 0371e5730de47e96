import { describe, expect, it } from 'vitest';
import { fileNames } from '../../src/cli/exportStl.ts';

describe('file names', () => {
  it('differ even if case is ignored', () => {
    expect(fileNames([{ id: 'hub' }, { id: 'Hub' }, { id: 'hub.housing' }, { id: 'HUB-2' }])).toEqual([
      'hub.stl',
      'Hub-2.stl',
      'hub.housing.stl',
      'HUB-2-2.stl',
    ]);
  });
});
