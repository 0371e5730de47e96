import { createContext, useContext } from 'react';
import type { Problem } from '../design/problem.ts';
import type { LimitFinding } from '../findings/limitFindings.ts';
import { isJoined } from '../report/treatment.ts';
import { withHubKept } from '../solids/heldHub.ts';
import { pairId } from '../sweep/pair.ts';
import type { SweepResult } from '../sweep/result.ts';
import type { Engine, OpenCorner, Opened, Probe, ProofCallbacks } from './engine.ts';
import type { Look } from './keep/look.ts';
import { pause } from './pause.ts';
import { endSection } from './section/sectionStore.ts';
import { type Swept, useCorner, type Work } from './stores/cornerStore.ts';
import { type OnDisk, sourceInHand, useDocument, withChange } from './stores/documentStore.ts';
import { usePose } from './stores/poseStore.ts';
import { limitKey, useView } from './stores/viewStore.ts';

/** Findings are told anew this often while a sweep goes on: each time takes the screen some 25 ms of its core. */
const PARTIAL_INTERVAL_MS = 500;

/** Far above any corner file: a mesh or a film dropped by mistake is not read as text. */
const LARGEST_FILE_BYTES = 5_000_000;

/** A file to be opened, or the file in hand as it stands now. */
interface Wanted {
  kind: 'file' | 'edit';
  fileName: string;
  text: string;
  from?: OpenedFrom;
}

/** Where a file comes from; an example or a dropped text where nothing is said. */
export interface OpenedFrom {
  onDisk?: OnDisk;
  /** It holds changes that were never saved. */
  unsaved?: boolean;
  /** How it was looked at before. */
  look?: Look;
  /** Names the first of its changes, in place of "Opened". */
  label?: string;
  /** Told what is wrong with it, in place of everybody. */
  onProblems?(problems: readonly Problem[]): void;
}

/** What a person can do on the workbench. Owns the engine's workers; tells the stores. */
export class Session {
  private readonly engine: Engine;
  private probe: Probe | undefined;
  private probed: OpenCorner | undefined;
  private sweeping: AbortController | undefined;
  private wanted: Wanted | undefined;
  private opening: Promise<void> | undefined;

  constructor(engine: Engine) {
    this.engine = engine;
  }

  /** Opens a corner file; on problems whatever was open stays. The last of several openings holds. */
  async open(fileName: string, text: string, from: OpenedFrom = {}): Promise<void> {
    useCorner.setState({ opening: fileName });
    await this.want({ kind: 'file', fileName, text, from });
  }

  /** Opens a file that was chosen or dropped. */
  async openFile(file: File, handle?: FileSystemFileHandle): Promise<void> {
    if (file.size > LARGEST_FILE_BYTES) {
      const message = `the file holds ${file.size} bytes; a corner file is a few thousand: choose a .corner.json`;
      useCorner.setState({ rejected: { fileName: file.name, problems: [{ path: '', found: '', message }] } });
      return;
    }
    const onDisk = handle && { handle, lastModified: file.lastModified };
    await this.open(file.name, await file.text(), { onDisk });
  }

  /**
   * Changes the file in hand to `source`, to be undone by the name of `label`. Changes with the same `merge` that follow
   * one another closely are undone as one, and with `held` however far apart they are. A file that is not sound any more
   * is kept, with its problems; what is shown is then the last sound one. A change of wheel or spacers keeps the hub in its
   * place, unless the file says that it follows.
   */
  async change(label: string, source: unknown, merge?: string, held = false): Promise<void> {
    const before = useCorner.getState().corner?.design;
    const kept = before === undefined ? source : withHubKept(before, source);
    const change = { label, source: kept, at: new Date(), merge, held };
    useDocument.setState((state) => withChange(state, change));
    await this.wantEdit();
  }

  /** Goes to a state of the file in hand: back to what was changed, or forward again to what was undone. */
  async goTo(now: number): Promise<void> {
    const { changes } = useDocument.getState();
    if (now < 0 || now >= changes.length) return;
    useDocument.setState({ now });
    await this.wantEdit();
  }

  undo = (): Promise<void> => this.goTo(useDocument.getState().now - 1);

  redo = (): Promise<void> => this.goTo(useDocument.getState().now + 1);

  private async wantEdit(): Promise<void> {
    const document = useDocument.getState();
    const text = JSON.stringify(sourceInHand(document));
    await this.want({ kind: 'edit', fileName: document.fileName, text });
  }

  /** Opens the newest of what is wanted, one after the other; resolves when nothing is wanted any more. */
  private want(wanted: Wanted): Promise<void> {
    // An edit of a file that is about to be left is not worth opening.
    if (wanted.kind === 'file' || this.wanted?.kind !== 'file') this.wanted = wanted;
    this.opening ??= this.openNewest();
    return this.opening;
  }

  private async openNewest(): Promise<void> {
    try {
      /** The engine holds a corner that was never shown, as a newer file was wanted by then. */
      let skipped = false;
      while (this.wanted !== undefined) {
        const wanted = this.wanted;
        this.wanted = undefined;
        const opened = await this.openText(wanted.text);
        // While a value is dragged every state on the way is shown; of files only the last.
        const newer = this.wanted as Wanted | undefined;
        if (newer?.kind === 'file' || (newer !== undefined && wanted.kind === 'file')) {
          skipped ||= opened.kind === 'open';
          continue;
        }
        if (opened.kind === 'bad' && skipped) await this.showAgain();
        skipped = false;
        if (wanted.kind === 'file') this.showFile(wanted, opened);
        else this.showEdit(opened);
      }
    } finally {
      // At once, not when the promise is looked at: what is wanted meanwhile would wait for nobody.
      this.opening = undefined;
    }
  }

  private openText(text: string): Promise<Opened> {
    return this.engine.open(text).catch((error: Error) => ({
      kind: 'bad' as const,
      problems: [{ path: '', found: '', message: error.message }],
    }));
  }

  /** Has the engine hold the corner that is shown again, and measure that. */
  private async showAgain(): Promise<void> {
    const { corner } = useCorner.getState();
    if (corner === undefined) return;
    const again = await this.openText(JSON.stringify(corner.design.source));
    if (again.kind === 'open') this.showEdit(again);
  }

  private showFile({ fileName, from = {} }: Wanted, opened: Opened): void {
    if (opened.kind === 'bad') {
      const { problems } = opened;
      useCorner.setState(
        from.onProblems === undefined
          ? { opening: undefined, rejected: { fileName, problems } }
          : { opening: undefined },
      );
      from.onProblems?.(problems);
      return;
    }
    const { corner } = opened;
    const { source } = corner.design;
    const first = { label: from.label ?? `Opened ${fileName}`, source, at: new Date(), merge: undefined };
    useDocument.setState({
      fileName,
      onDisk: from.onDisk,
      changes: [first],
      now: 0,
      saved: from.unsaved ? undefined : source,
      problems: [],
    });
    useView.setState(({ unit }) => ({
      pair: undefined,
      limit: undefined,
      charted: [],
      part: undefined,
      hidden: new Set(),
      unit: from.look?.unit ?? corner.design.corner.unit ?? unit,
      camera: from.look?.camera,
    }));
    endSection();
    usePose.setState({ drawn: undefined });
    useCorner.setState(({ opened: count }) => ({
      opened: count + 1,
      opening: undefined,
      rejected: undefined,
    }));
    this.show(corner, from.look?.travelMm ?? 0, from.look?.steer ?? 0);
    useView.getState().lookFrom(from.look?.camera === undefined ? 'threeQuarter' : 'kept');
  }

  /** Shows the file in hand as it was changed, at the pose and in the view that were in hand. */
  private showEdit(opened: Opened): void {
    if (opened.kind === 'bad') {
      useDocument.setState({ problems: opened.problems });
      return;
    }
    const { corner } = opened;
    const before = useCorner.getState().corner;
    useDocument.setState({ problems: [] });
    useView.setState(({ pair, charted, part }) => ({
      charted: charted.flatMap((one) => (before && samePair(before, one, corner)) ?? []),
      pair: before === undefined || pair === undefined ? undefined : samePair(before, pair, corner),
      part: before === undefined || part === undefined ? undefined : samePart(before, part, corner),
    }));
    const { travelMm, steer } = usePose.getState();
    this.show(corner, travelMm, steer);
  }

  private show(corner: OpenCorner, travelMm: number, steer: number): void {
    this.leave();
    usePose.setState({ measured: undefined, probeFailure: undefined });
    useCorner.setState({ corner, swept: undefined, progress: undefined });
    this.moveTo(travelMm, steer);
    void this.startProbe(corner);
    void this.sweep();
  }

  /** Has the pose in hand measured from now on. */
  private async startProbe(corner: OpenCorner): Promise<void> {
    this.probed = corner;
    const fail = (why: string) => {
      if (this.probed === corner) usePose.setState({ probeFailure: why });
    };
    try {
      const probe = await corner.probe(
        (travelMm, steer, row) => usePose.setState({ measured: { travelMm, steer, row } }),
        fail,
      );
      if (this.probed !== corner) return probe.end();
      this.probe = probe;
      const { travelMm, steer } = usePose.getState();
      probe.ask(travelMm, steer);
    } catch (error) {
      fail((error as Error).message);
    }
  }

  /** Ends what runs for the corner in hand. */
  private leave(): void {
    this.sweeping?.abort();
    this.probe?.end();
    this.probe = undefined;
    this.probed = undefined;
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
    this.sweeping?.abort();
    const control = new AbortController();
    this.sweeping = control;
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
    useView.setState({ pair, limit: undefined, part: undefined, hiding: [] });
    const chosen = useCorner.getState().corner?.pairs[pair];
    if (worst === undefined) {
      // Nothing is near but where the parts are joined.
      if (chosen !== undefined && isJoined(chosen)) useView.getState().lookFrom('pair');
      return;
    }
    if (chosen?.moves) this.moveTo(worst.travelMm, worst.steer);
    else this.moveTo(0, 0);
    useView.getState().lookFrom('pair');
  }

  /** Chooses a joint or damper: poses the corner where it is worst. */
  showLimit(limit: LimitFinding): void {
    const { corner } = useCorner.getState();
    if (corner === undefined) return;
    usePose.setState({ playing: false });
    useView.setState({ limit: limitKey(corner.design.corner, limit), pair: undefined });
    if (limit.worst !== undefined) this.moveTo(limit.worst.travelMm, limit.worst.steer);
  }

  /** The report of a finished sweep as an HTML page; undefined before there is one. */
  async report(): Promise<{ fileName: string; html: string } | undefined> {
    const { corner, swept } = useCorner.getState();
    if (corner === undefined || swept === undefined) return undefined;
    if (swept.findings.verdict === 'incomplete') return undefined;
    const name = corner.design.corner.name.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '');
    return {
      fileName: `${name || 'corner'}-clearance.html`,
      html: await corner.report(swept.result, swept.findings, useView.getState().unit),
    };
  }
}

/** Index of the pair of the same two parts in a changed corner; undefined where there is none any more. */
function samePair(before: OpenCorner, pair: number, after: OpenCorner): number | undefined {
  const id = pairId(before.solids, before.pairs[pair]);
  const index = after.pairs.findIndex((one) => pairId(after.solids, one) === id);
  return index < 0 ? undefined : index;
}

function samePart(before: OpenCorner, part: number, after: OpenCorner): number | undefined {
  const [was, are] = [before.design.corner.parts, after.design.corner.parts];
  const index = are.findIndex((entry) => entry.id === was[part].id);
  if (index >= 0) return index;
  // A part of the same kind in its place is the same one by another name.
  return was.length === are.length && was[part].kind === are[part].kind ? part : undefined;
}

export const SessionContext = createContext<Session | undefined>(undefined);

export function useSession(): Session {
  const session = useContext(SessionContext);
  if (session === undefined) throw new Error('this component stands outside the workbench');
  return session;
}
