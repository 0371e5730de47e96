import { readFileSync } from 'node:fs';
import { type Setup, setUp } from '../../../src/sweep/setUp.ts';
import { readDesign } from '../../design/readDesign.ts';
import { COARSE } from './settings.ts';

/** Sets up a valid corner file in Node with the coarse settings of the page. Throws if the file has problems. */
export function setUpCoarse(text: string): Promise<Setup> {
  const design = readDesign(text);
  return setUp(design, COARSE);
}

/** Text of a demo corner file, by its name without extension. */
export const demoText = (name: string): string =>
  readFileSync(new URL(`../../../demo-data/${name}.corner.json`, import.meta.url), 'utf8');
