import { Component, type ReactNode } from 'react';

/** Shows a render error instead of a blank page. */
export class ErrorBoundary extends Component<{ children: ReactNode }, { error: Error | undefined }> {
  override state: { error: Error | undefined } = { error: undefined };

  static getDerivedStateFromError(error: unknown): { error: Error } {
    return { error: error instanceof Error ? error : new Error(String(error)) };
  }

  override render(): ReactNode {
    const { error } = this.state;
    if (error === undefined) return this.props.children;
    return (
      <div className="failure" role="alert">
        <h1>Daylight has stopped because of an internal error</h1>
        <p>
          <code>{error.message}</code>
        </p>
        <p>Your corner file is not changed. Reload the page to continue.</p>
        <button type="button" className="primary" onClick={() => location.reload()}>
          Reload
        </button>
      </div>
    );
  }
}
