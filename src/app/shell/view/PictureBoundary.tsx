import { Component, type ReactNode } from 'react';

interface PictureBoundaryProps {
  children: ReactNode;
  onFailure(error: Error): void;
}

/** Renders nothing if the picture fails, so that the workbench works without it. */
export class PictureBoundary extends Component<PictureBoundaryProps, { failed: boolean }> {
  override state = { failed: false };

  static getDerivedStateFromError(): { failed: boolean } {
    return { failed: true };
  }

  override componentDidCatch(error: unknown): void {
    this.props.onFailure(error instanceof Error ? error : new Error(String(error)));
  }

  override render(): ReactNode {
    return this.state.failed ? null : this.props.children;
  }
}
