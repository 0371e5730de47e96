import type { SweepResult } from '../sweep/result.ts';
import type { OpenCorner, ProofCallbacks } from './engine.ts';
import { pause } from './pause.ts';
import { type Swept, useCorner, type Work } from './stores/cornerStore.ts';

/** Interval between partial findings during a sweep: each takes the screen some 25 ms of its core. */
const PARTIAL_INTERVAL_MS = 500;

/** Sweeps and proves the corner on screen, one at a time, and shows progress and findings in the store. */
export class Sweeping {
  private control: AbortController | undefined;

  /** Sweeps the corner in hand from the start, and proves what lies between the steps. */
  async sweep(): Promise<void> {
    const done = await this.work('sweep', async (corner, callbacks) => {
      let telling = false;
      let whole = false;
      const tell = async (partial: SweepResult) => {
        if (telling) return;
        telling = true;
        // Finding and showing are a task each, so that a press of a key can come between.
        await pause(0);
        const findings = corner.findings(partial);
        await pause(0);
        if (callbacks.signal.aborted || whole) return;
        useCorner.setState({ swept: { result: partial, findings } });
        await pause(PARTIAL_INTERVAL_MS);
        telling = false;
      };
      // The corner is shown first: room for all that the sweep finds takes a task of its own.
      await pause(0);
      const result = await corner.sweep({ ...callbacks, onPartial: (partial) => void tell(partial) });
      whole = true;
      return { result, findings: corner.findings(result) };
    });
    if (done) await this.prove();
  }

  /** Proves what lies between the steps of the sweep in hand. */
  async prove(): Promise<void> {
    const result = useCorner.getState().swept?.result;
    if (result === undefined) return;
    const proved = await this.work('proof', async (corner, callbacks) => {
      const proof = await corner.prove(result, callbacks);
      return { result, findings: corner.findings(result, proof) };
    });
    if (proved) useCorner.setState({ progress: { kind: 'done' } });
  }

  /** Does work for the corner in hand, and nothing else beside it; shows what came out, and whether it did. */
  private async work(
    work: Work,
    does: (corner: OpenCorner, callbacks: ProofCallbacks) => Promise<Swept>,
  ): Promise<boolean> {
    const { corner } = useCorner.getState();
    if (corner === undefined) return false;
    this.control?.abort();
    const control = new AbortController();
    this.control = control;
    const { signal } = control;
    let running = { kind: 'running' as const, work, done: 0, total: 0, cells: 0 };
    const show = (change: { done: number; total: number } | { cells: number }) => {
      if (signal.aborted) return;
      running = { ...running, ...change };
      useCorner.setState({ progress: running });
    };
    const onProgress = (done: number, total: number) => show({ done, total });
    onProgress(0, work === 'sweep' ? corner.travelMm.length : corner.pairs.length);
    try {
      const swept = await does(corner, { signal, onProgress, onCells: (cells) => show({ cells }) });
      if (signal.aborted) return false;
      useCorner.setState({ swept });
      return true;
    } catch (error) {
      if (useCorner.getState().corner !== corner || this.control !== control) return false;
      useCorner.setState({
        progress: signal.aborted
          ? { kind: 'cancelled', work }
          : { kind: 'failed', work, why: error instanceof Error ? error.message : String(error) },
      });
      return false;
    }
  }

  cancel(): void {
    this.control?.abort();
  }
}
