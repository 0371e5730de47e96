import type { SweepResult } from '../../sweep/result.ts';
import { pause } from '../kit/pause.ts';
import { type Swept, useCorner, type Work } from './cornerStore.ts';
import type { OpenCorner, ProofCallbacks } from './engine.ts';

/** Interval between partial findings during a sweep: each costs the page about 25 ms. */
const PARTIAL_INTERVAL_MS = 500;

/** Sweeps and proves the corner on screen, one run at a time, and puts progress and findings into the store. */
export class SweepRunner {
  private control: AbortController | undefined;

  /** Sweeps the current corner from the start, then proves the range between the steps. */
  async sweep(): Promise<void> {
    const done = await this.work('sweep', async (corner, callbacks) => {
      let publishing = false;
      let complete = false;
      const publish = async (partial: SweepResult) => {
        if (publishing) return;
        publishing = true;
        // Separate tasks for computing and showing the findings, so that key presses are handled in between.
        await pause(0);
        const findings = corner.findings(partial);
        await pause(0);
        if (callbacks.signal.aborted || complete) return;
        useCorner.setState({ swept: { result: partial, findings } });
        await pause(PARTIAL_INTERVAL_MS);
        publishing = false;
      };
      // The corner is shown first; allocating the sweep result is a separate task.
      await pause(0);
      const result = await corner.sweep({ ...callbacks, onPartial: (partial) => void publish(partial) });
      complete = true;
      return { result, findings: corner.findings(result) };
    });
    if (done) await this.prove();
  }

  /** Proves the range between the steps of the current sweep. */
  async prove(): Promise<void> {
    const result = useCorner.getState().swept?.result;
    if (result === undefined) return;
    const proved = await this.work('proof', async (corner, callbacks) => {
      const proof = await corner.prove(result, callbacks);
      return { result, findings: corner.findings(result, proof) };
    });
    if (proved) useCorner.setState({ progress: { kind: 'done' } });
  }

  /** Runs a sweep or a proof of the current corner and cancels the previous run. Returns whether it completed. */
  private async work(
    work: Work,
    run: (corner: OpenCorner, callbacks: ProofCallbacks) => Promise<Swept>,
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
      const swept = await run(corner, { signal, onProgress, onCells: (cells) => show({ cells }) });
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
