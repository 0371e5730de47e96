import { readFileSync } from 'node:fs';
import { parseDesign } from '../../../src/design/parse.ts';
import { type Setup, setUp } from '../../../src/sweep/setUp.ts';
import { COARSE } from './settings.ts';

/** A sound corner file as the engine makes it here, beside the page, and as coarse as there. */
export function setUpCoarse(text: string): Promise<Setup> {
  const parsed = parseDesign(text);
  if (parsed.kind === 'bad') throw new Error(`the corner is not sound: ${parsed.problems[0].message}`);
  return setUp(parsed.design, COARSE);
}

/** Text of a demo corner, by the name of its file. */
export const demoText = (name: string): string =>
  readFileSync(new URL(`../../../demo-data/${name}.corner.json`, import.meta.url), 'utf8');
