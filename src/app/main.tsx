import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { browserEngine } from './browserEngine.ts';
import type { Demo } from './demos.ts';
import { ErrorBoundary } from './ErrorBoundary.tsx';
import './styles/index.css';
import { Workbench } from './Workbench.tsx';

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

const engine = browserEngine();

const root = document.getElementById('root');
if (root === null) throw new Error('the page has no element #root');
createRoot(root).render(
  <StrictMode>
    <ErrorBoundary>
      <Workbench engine={engine} demos={demos} />
    </ErrorBoundary>
  </StrictMode>,
);
