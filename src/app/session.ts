import { createContext, useContext } from 'react';
import { POSE_STATES, type SweepResult } from '../sweep/result.ts';
import type { Engine, OpenCorner, Probe } from './engine.ts';
import { type Swept, useCorner, type Work } from './stores/cornerStore.ts';
import { usePose } from './stores/poseStore.ts';
import { useView } from './stores/viewStore.ts';

/** Findings are told anew this often while a sweep goes on. */
const PARTIAL_INTERVAL_MS = 250;

/** Far above any corner file: a mesh or a film dropped by mistake is not read as text. */
const LARGEST_FILE_BYTES = 5_000_000;

const pause = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

/** What a person can do on the workbench. Owns the engine's workers; tells the stores. */
export class Session {
  private readonly engine: Engine;
  private probe: Probe | undefined;
  private sweeping: AbortController | undefined;
  private opening: AbortController | undefined;

  constructor(engine: Engine) {
    this.engine = engine;
  }

  /** Opens a corner file; on problems whatever was open stays. The last of several openings holds. */
  async open(fileName: string, text: string): Promise<void> {
    this.opening?.abort();
    const opening = new AbortController();
    this.opening = opening;
    useCorner.setState({ opening: fileName });
    const opened = await this.engine.open(text, opening.signal).catch((error: Error) => ({
      kind: 'bad' as const,
      problems: [{ path: '', found: '', message: error.message }],
    }));
    if (opening.signal.aborted) {
      if (opened.kind === 'open') opened.corner.close();
      return;
    }
    if (opened.kind === 'bad') {
      useCorner.setState({ opening: undefined, rejected: { fileName, problems: opened.problems } });
      return;
    }
    this.close();
    this.show(opened.corner);
  }

  /** Opens a file that was chosen or dropped. */
  async openFile(file: File): Promise<void> {
    if (file.size > LARGEST_FILE_BYTES) {
      const message = `the file holds ${file.size} bytes; a corner file is a few thousand: choose a .corner.json`;
      useCorner.setState({ rejected: { fileName: file.name, problems: [{ path: '', found: '', message }] } });
      return;
    }
    await this.open(file.name, await file.text());
  }

  private show(corner: OpenCorner): void {
    useView.setState(({ unit }) => ({
      pair: undefined,
      part: undefined,
      hidden: new Set(),
      unit: corner.design.corner.unit ?? unit,
    }));
    usePose.setState({ measured: undefined, probeFailure: undefined, drawn: undefined });
    useCorner.setState({
      corner,
      opening: undefined,
      rejected: undefined,
      swept: undefined,
      progress: undefined,
    });
    this.moveTo(0, 0);
    useView.getState().lookFrom('threeQuarter');
    void this.sweep();
  }

  /** Has the pose measured from now on: a worker more. The first map comes before it. */
  private startProbe(corner: OpenCorner): void {
    if (this.probe !== undefined || useCorner.getState().corner !== corner) return;
    this.probe = corner.probe(
      (travelMm, steer, row) => usePose.setState({ measured: { travelMm, steer, row } }),
      (why) => usePose.setState({ probeFailure: why }),
    );
    const { travelMm, steer } = usePose.getState();
    this.probe.ask(travelMm, steer);
  }

  /** Ends what runs for the corner in hand. */
  close(): void {
    this.sweeping?.abort();
    this.probe?.end();
    this.probe = undefined;
    useCorner.getState().corner?.close();
    usePose.setState({ playing: false });
  }

  /** Poses the corner. `steer` of the left corner; both are kept within what the corner is to reach. */
  moveTo(travelMm: number, steer: number): void {
    const { corner } = useCorner.getState();
    if (corner === undefined) return;
    const { bump, droop } = corner.design.corner.suspension.travel;
    const travel = Math.max(-droop, Math.min(bump, travelMm)) || 0;
    const lock = Math.max(-1, Math.min(1, steer)) || 0;
    const view = corner.poseAt(travel, lock);
    usePose.setState({
      travelMm: travel,
      steer: lock,
      view,
      ...(view.pose.kind === 'solved' ? { drawn: view.pose.carriers } : {}),
    });
    this.probe?.ask(travel, lock);
  }

  /** Sweeps the corner in hand from the start, and proves what lies between the steps. */
  async sweep(): Promise<void> {
    const { corner: swept } = useCorner.getState();
    const done = await this.work('sweep', async (corner, signal, onProgress) => {
      let telling = false;
      let whole = false;
      const tell = async (partial: SweepResult) => {
        if (telling) return;
        telling = true;
        // Finding and showing are a task each, so that a press of a key can come between.
        await pause(0);
        const findings = corner.findings(partial);
        await pause(0);
        if (signal.aborted || whole) return;
        useCorner.setState({ swept: { result: partial, findings } });
        this.startProbe(corner);
        await pause(PARTIAL_INTERVAL_MS);
        telling = false;
      };
      const result = await corner.sweep({ signal, onProgress, onPartial: (partial) => void tell(partial) });
      whole = true;
      return { result, findings: corner.findings(result) };
    });
    if (swept !== undefined) this.startProbe(swept);
    if (done) await this.prove();
  }

  /** Proves what lies between the steps of the sweep in hand. */
  async prove(): Promise<void> {
    const result = useCorner.getState().swept?.result;
    if (result === undefined) return;
    const proved = await this.work('proof', async (corner, signal, onProgress) => {
      const proof = await corner.prove(result, { signal, onProgress });
      return { result, findings: corner.findings(result, proof) };
    });
    if (proved) useCorner.setState({ progress: { kind: 'done' } });
  }

  /** Does work for the corner in hand, and nothing else beside it; shows what came out, and whether it did. */
  private async work(
    work: Work,
    does: (
      corner: OpenCorner,
      signal: AbortSignal,
      onProgress: (done: number, total: number) => void,
    ) => Promise<Swept>,
  ): Promise<boolean> {
    const { corner } = useCorner.getState();
    if (corner === undefined) return false;
    this.sweeping?.abort();
    const control = new AbortController();
    this.sweeping = control;
    const { signal } = control;
    const onProgress = (done: number, total: number) => {
      if (!signal.aborted) useCorner.setState({ progress: { kind: 'running', work, done, total } });
    };
    onProgress(0, work === 'sweep' ? corner.travelMm.length : corner.pairs.length);
    try {
      const swept = await does(corner, signal, onProgress);
      if (signal.aborted) return false;
      useCorner.setState({ swept });
      return true;
    } catch (error) {
      if (useCorner.getState().corner !== corner || this.sweeping !== control) return false;
      useCorner.setState({
        progress: signal.aborted
          ? { kind: 'cancelled', work }
          : { kind: 'failed', work, why: error instanceof Error ? error.message : String(error) },
      });
      return false;
    }
  }

  cancelSweep(): void {
    this.sweeping?.abort();
  }

  /** Chooses a pair: poses the corner at its tight spot and looks at it square-on. */
  showPair(pair: number): void {
    const { swept } = useCorner.getState();
    const worst = swept?.findings.pairs.find((finding) => finding.pair === pair)?.worst;
    usePose.setState({ playing: false });
    useView.setState({ pair, part: undefined, hiding: [] });
    if (worst === undefined) return;
    if (useCorner.getState().corner?.pairs[pair].moves) this.moveTo(worst.travelMm, worst.steer);
    else this.moveTo(0, 0);
    useView.getState().lookFrom('pair');
  }

  /** The report of a finished sweep as an HTML page; undefined before there is one. */
  async report(): Promise<{ fileName: string; html: string } | undefined> {
    const { corner, swept } = useCorner.getState();
    if (corner === undefined || swept === undefined) return undefined;
    if (swept.result.poseState.includes(POSE_STATES.indexOf('pending'))) return undefined;
    const name = corner.design.corner.name.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '');
    return {
      fileName: `${name || 'corner'}-clearance.html`,
      html: await corner.report(swept.result, swept.findings, useView.getState().unit),
    };
  }
}

export const SessionContext = createContext<Session | undefined>(undefined);

export function useSession(): Session {
  const session = useContext(SessionContext);
  if (session === undefined) throw new Error('this component stands outside the workbench');
  return session;
}
