import '../../../src/app/styles/index.css';
import { browserEngine } from '../../../src/app/browserEngine.ts';
import { openFirst } from '../../../src/app/keep/openFirst.ts';
import { showPage } from '../../../src/app/page.tsx';
import { Session } from '../../../src/app/session.ts';
import { COARSE } from './settings.ts';

/** The workbench with a coarse sweep; `?demo=NAME` opens an example corner. */
const texts = import.meta.glob<string>('/demo-data/*.corner.json', {
  query: '?raw',
  import: 'default',
  eager: true,
});
const wanted = new URLSearchParams(location.search).get('demo');
const demos = Object.entries(texts)
  .filter(([path]) => wanted === null || path.includes(wanted))
  .map(([path, text]) => ({ fileName: path.replace(/^.*\//, ''), name: JSON.parse(text).name, text }));

const session = new Session(browserEngine(COARSE));
void openFirst(session, demos);
showPage(session, demos);
