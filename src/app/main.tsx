import './styles/index.css';
import { prepareFields } from '../design/fields.ts';
import { browserEngine } from './state/browserEngine.ts';
import type { Demo } from './state/demos.ts';
import { openFirst } from './state/keep/openFirst.ts';
import { Session } from './state/session.ts';
import { graphicsReady } from './workers/drawing/drawing.ts';

const texts = import.meta.glob<string>('/demo-data/*.corner.json', {
  query: '?raw',
  import: 'default',
  eager: true,
});
/** Listed and opened first: a corner with a contact. */
const OPENED_FIRST = 'gravelbeck.corner.json';
const demos = Object.entries(texts)
  .map(([path, text]): Demo => ({ fileName: path.replace(/^.*\//, ''), name: JSON.parse(text).name, text }))
  .sort((a, b) => Number(b.fileName === OPENED_FIRST) - Number(a.fileName === OPENED_FIRST));

// The first corner is built in its worker while the modules of the page are still loading.
const session = new Session(browserEngine());
void openFirst(session, demos);
void graphicsReady();
const { showPage } = await import('./shell/page.tsx');
showPage(session, demos);
// Prepares the fields of the sheets in a separate task, while the first corner is being built.
setTimeout(prepareFields);
