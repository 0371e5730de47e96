import '../../../src/app/styles/index.css';
import { showPage } from '../../../src/app/shell/page.tsx';
import { browserEngine } from '../../../src/app/state/browserEngine.ts';
import { openFirst } from '../../../src/app/state/keep/openFirst.ts';
import { Session } from '../../../src/app/state/session.ts';
import { startBrowserPool } from '../../../src/executors/browserWorkers.ts';
import { drawNothing } from './drawNothing.ts';
import { RecordedPool } from './recordedPool.ts';
import { COARSE } from './settings.ts';

/**
 * The workbench with a coarse sweep; `?demo=NAME` opens an example corner and lists no other, `?demo=none` lists none,
 * `?open=none` lists all and opens none, `&results=recorded` reuses what pages of this run have built, swept and proved,
 * `&picture=blank` draws nothing into the canvas of the view.
 */
const texts = import.meta.glob<string>('/demo-data/*.corner.json', {
  query: '?raw',
  import: 'default',
  eager: true,
});
const query = new URLSearchParams(location.search);
const demoName = query.get('demo');
const demos = Object.entries(texts)
  .filter(([path]) => demoName === null || path.includes(demoName))
  .map(([path, text]) => ({ fileName: path.replace(/^.*\//, ''), name: JSON.parse(text).name, text }));

if (query.get('picture') === 'blank') drawNothing();
const isRecorded = query.get('results') === 'recorded';
const session = new Session(
  browserEngine(COARSE, () => startBrowserPool(undefined, isRecorded ? RecordedPool : undefined)),
);
void openFirst(session, query.get('open') === 'none' ? [] : demos);
showPage(session, demos);
