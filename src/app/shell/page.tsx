import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { ErrorBoundary } from '../kit/ErrorBoundary.tsx';
import type { Demo } from '../state/demos.ts';
import type { Session } from '../state/session.ts';
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
