import { readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parseDesign } from '../../src/design/parse.ts';

const FOLDER = resolve(import.meta.dirname, '../../demo-data');

function read(name: string) {
  const parsed = parseDesign(readFileSync(resolve(FOLDER, name), 'utf8'));
  if (parsed.kind === 'bad') throw new Error(parsed.problems.map((one) => one.message).join('\n'));
  return parsed.design;
}

describe('demo corners', () => {
  const names = readdirSync(FOLDER).filter((name) => name.endsWith('.corner.json'));

  it('are there, and every one is sound', () => {
    expect(names).toEqual([
      'larkrise.corner.json',
      'saltpan-mm.corner.json',
      'saltpan.corner.json',
      'stoneyholt.corner.json',
    ]);
    for (const name of names) expect(read(name).inputs.length).toBeGreaterThan(100);
  });

  it('typed in inches and in millimetres is the same corner to the last bit', () => {
    const [inches, mm] = [read('saltpan.corner.json'), read('saltpan-mm.corner.json')];
    expect(inches.hash).toBe(mm.hash);
    const typed = (design: typeof mm) => design.inputs.filter((one) => typeof one.typed === 'string').length;
    expect(typed(inches)).toBeGreaterThan(typed(mm) + 50);
  });
});
