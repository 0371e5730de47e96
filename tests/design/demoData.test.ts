import { readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readDesign } from './readDesign.ts';

const FOLDER = resolve(import.meta.dirname, '../../demo-data');

function read(name: string) {
  return readDesign(readFileSync(resolve(FOLDER, name), 'utf8'));
}

describe('demo corners', () => {
  const names = readdirSync(FOLDER).filter((name) => name.endsWith('.corner.json'));

  it('exist, and each is valid', () => {
    expect(names).toEqual([
      'gravelbeck-mm.corner.json',
      'gravelbeck.corner.json',
      'larkrise.corner.json',
      'stoneyholt.corner.json',
    ]);
    for (const name of names) expect(read(name).inputs.length).toBeGreaterThan(100);
  });

  it('gives the same corner to the last bit from inches and from millimetres', () => {
    const [inches, mm] = [read('gravelbeck.corner.json'), read('gravelbeck-mm.corner.json')];
    expect(inches.hash).toBe(mm.hash);
    const typed = (design: typeof mm) => design.inputs.filter((one) => typeof one.typed === 'string').length;
    expect(typed(inches)).toBeGreaterThan(typed(mm) + 50);
  });
});
