import { createRoot } from 'react-dom/client';
import { browserEngine } from '../../../src/app/browserEngine.ts';
import '../../../src/app/styles/index.css';
import { Workbench } from '../../../src/app/Workbench.tsx';
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

const root = document.getElementById('root');
if (root === null) throw new Error('the page has no element #root');
createRoot(root).render(<Workbench engine={browserEngine(COARSE)} demos={demos} />);
