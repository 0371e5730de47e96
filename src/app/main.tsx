import './styles/index.css';
import { readyFields } from '../design/fields.ts';
import { browserEngine } from './browserEngine.ts';
import type { Demo } from './demos.ts';
import { openFirst } from './keep/openFirst.ts';
import { Session } from './session.ts';
import { graphicsReady } from './viewer/drawing.ts';

const texts = import.meta.glob<string>('/demo-data/*.corner.json', {
  query: '?raw',
  import: 'default',
  eager: true,
});
/** Opened first: the corner with a contact to be found. */
const OPENED_FIRST = 'saltpan.corner.json';
const demos = Object.entries(texts)
  .map(([path, text]): Demo => ({ fileName: path.replace(/^.*\//, ''), name: JSON.parse(text).name, text }))
  .sort((a, b) => Number(b.fileName === OPENED_FIRST) - Number(a.fileName === OPENED_FIRST));

// The first corner is built in its worker while the screens are still being read.
const session = new Session(browserEngine());
void openFirst(session, demos);
void graphicsReady();
const { showPage } = await import('./page.tsx');
showPage(session, demos);
// The first corner is still being built: what its bench sheets need is made meanwhile, in a task of its own.
setTimeout(readyFields);
