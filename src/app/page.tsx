import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import type { Demo } from './demos.ts';
import { ErrorBoundary } from './ErrorBoundary.tsx';
import type { Session } from './session.ts';
import { Workbench } from './Workbench.tsx';

/** Puts the workbench on the page. */
export function showPage(session: Session, demos: readonly Demo[]): void {
  const root = document.getElementById('root');
  if (root === null) throw new Error('the page has no element #root');
  createRoot(root).render(
    <StrictMode>
      <ErrorBoundary>
        <Workbench session={session} demos={demos} />
      </ErrorBoundary>
    </StrictMode>,
  );
}
