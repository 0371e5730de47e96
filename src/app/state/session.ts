import { createContext, useContext } from 'react';
import { type Assets, NO_ASSETS } from '../../design/assets.ts';
import type { LimitFinding } from '../../findings/limitFindings.ts';
import { isJoined } from '../../report/treatment.ts';
import { withHubKept } from '../../solids/heldHub.ts';
import type { Problem } from '../../units/problem.ts';
import { afterPicture } from '../kit/afterPicture.ts';
import { fileNameOf } from '../kit/download.ts';
import { useCorner } from './cornerStore.ts';
import {
  type Change,
  type History,
  type OnDisk,
  statusOf,
  useDocument,
  withChange,
} from './documentStore.ts';
import type { Engine, OpenCorner, Opened, Probe, ReportParts, ReportStudies } from './engine.ts';
import { readChosen } from './keep/chosenFiles.ts';
import type { SavedView } from './keep/viewSettings.ts';
import { samePair, samePart } from './matchAcrossEdits.ts';
import { earlierStates, repairableSource } from './openForRepair.ts';
import { usePose } from './poseStore.ts';
import { reportRefusal } from './reportRefusal.ts';
import { endSection } from './sectionStore.ts';
import { SweepRunner } from './sweepRunner.ts';
import { limitKey, useView } from './viewStore.ts';

/** Request to open a file, or to build a state of the open file. */
type OpenRequest =
  | { kind: 'file'; fileName: string; text: string; options: OpenOptions }
  | { kind: 'edit'; change: Change };

/** The problems of a request, and the corner to show, if any; `earlier`: its state in the file, if not the requested one. */
interface BuildResult {
  problems: readonly Problem[];
  corner: OpenCorner | undefined;
  earlier?: Change;
}

interface OpenOptions {
  /** The files beside it. */
  assets?: Assets;
  onDisk?: OnDisk;
  /** Whether it has unsaved changes. */
  unsaved?: boolean;
  /** View to restore. */
  view?: SavedView;
  /** Label of the first change; by default "Opened" and the file name. */
  label?: string;
  /** History of a draft, whose current state is `text`. The file is then opened even with wrong values. */
  history?: History;
  /** Opens the file even with wrong values, so that they can be corrected. */
  repair?: boolean;
  /** Receives the problems instead of the dialog. */
  onProblems?(problems: readonly Problem[]): void;
}

/** The actions of the workbench. Owns the engine and writes to the stores. */
export class Session {
  private readonly engine: Engine;
  private probe: Probe | undefined;
  private probedCorner: OpenCorner | undefined;
  private readonly sweepRunner = new SweepRunner();
  private pending: OpenRequest | undefined;
  private opening: Promise<void> | undefined;
  /** The last rejected file; it can be opened for repair. */
  private rejectedFile: (OpenRequest & { kind: 'file' }) | undefined;

  constructor(engine: Engine) {
    this.engine = engine;
  }

  /** Opens a corner file. If it has problems, the open file stays open. The newest request wins. */
  async open(fileName: string, text: string, options: OpenOptions = {}): Promise<void> {
    useCorner.setState({ opening: fileName });
    await this.request({ kind: 'file', fileName, text, options });
  }

  /** Opens chosen or dropped files: a corner file and the files beside it. */
  async openFiles(chosen: readonly File[]): Promise<void> {
    const read = await readChosen(chosen);
    if (read.kind === 'rejected') return useCorner.setState({ rejected: { ...read, repairable: false } });
    const { fileName, text, assets, onDisk } = read;
    await this.open(fileName, text, { assets, onDisk });
  }

  /** Opens the last rejected file, so that its wrong values can be corrected. */
  async openForRepair(): Promise<void> {
    const { rejectedFile } = this;
    if (rejectedFile === undefined) return;
    await this.open(rejectedFile.fileName, rejectedFile.text, { ...rejectedFile.options, repair: true });
  }

  /** Resolves when the current state of the file is built, or has been found wrong. */
  settled = async (): Promise<void> => this.opening;

  /**
   * Changes the open file to `source`, with `label` as the name of the undo step. Changes with the same `merge` in quick
   * succession are one undo step; with `held`, after any time. A file with wrong values is kept with its problems, and the
   * last valid state stays on screen. If wheel or spacers change, the hub keeps its place, unless the file says that it
   * follows the wheel.
   */
  async change(label: string, source: unknown, merge?: string, held = false): Promise<void> {
    const before = useCorner.getState().corner?.design;
    const kept = before === undefined ? source : withHubKept(before, source);
    const change = { label, source: kept, at: new Date(), merge, held };
    useDocument.setState((state) => withChange(state, change));
    await this.requestEdit();
  }

  /** Goes to a state of the history, for undo and redo. */
  async goTo(now: number): Promise<void> {
    const { changes } = useDocument.getState();
    if (now < 0 || now >= changes.length) return;
    useDocument.setState({ now });
    await this.requestEdit();
  }

  undo = (): Promise<void> => this.goTo(useDocument.getState().now - 1);

  redo = (): Promise<void> => this.goTo(useDocument.getState().now + 1);

  private async requestEdit(): Promise<void> {
    const { changes, now } = useDocument.getState();
    await this.request({ kind: 'edit', change: changes[now] });
  }

  /** Handles requests one at a time, the newest first; resolves when no request is pending. */
  private request(request: OpenRequest): Promise<void> {
    // A pending file replaces the open file, so an edit of the open file is dropped.
    if (request.kind === 'file' || this.pending?.kind !== 'file') this.pending = request;
    this.opening ??= this.openNewest();
    return this.opening;
  }

  private async openNewest(): Promise<void> {
    try {
      /** Whether the engine holds a corner that was not shown because a newer file was requested. */
      let skipped = false;
      while (this.pending !== undefined) {
        const request = this.pending;
        this.pending = undefined;
        const result = await this.build(request);
        // Every state of a dragged value is shown, but only the newest of several files.
        const newer = this.pending as OpenRequest | undefined;
        if (newer?.kind === 'file' || (newer !== undefined && request.kind === 'file')) {
          skipped ||= result.corner !== undefined;
          continue;
        }
        const isRejected =
          request.kind === 'file' && result.corner === undefined && !opensDespiteProblems(request);
        if (skipped && result.corner === undefined) await this.rebuildShown();
        skipped = false;
        if (request.kind === 'edit') this.showEdit(request.change, result);
        else if (isRejected) this.reject(request, result.problems);
        else this.showFile(request, result);
      }
    } finally {
      // Cleared here, not in a `then` of the promise: a request in between would wait for a finished run.
      this.opening = undefined;
    }
  }

  private async build(request: OpenRequest): Promise<BuildResult> {
    const isFile = request.kind === 'file';
    const text = isFile ? request.text : JSON.stringify(request.change.source);
    const { assets = NO_ASSETS } = isFile ? request.options : useDocument.getState();
    const opened = await this.openText(text, assets);
    if (opened.kind === 'open') return { problems: [], corner: opened.corner };
    const { problems } = opened;
    if (request.kind === 'edit' || request.options.history === undefined)
      return { problems, corner: undefined };
    for (const earlier of earlierStates(request.options.history)) {
      const other = await this.openText(JSON.stringify(earlier.source), assets);
      if (other.kind === 'open') return { problems, corner: other.corner, earlier };
    }
    return { problems, corner: undefined };
  }

  private openText(text: string, assets: Assets): Promise<Opened> {
    return this.engine.open({ text, assets }).catch((error: Error) => ({
      kind: 'bad' as const,
      problems: [{ path: '', found: '', message: error.message }],
    }));
  }

  /** Reopens the corner on screen in the engine and measures it. */
  private async rebuildShown(): Promise<void> {
    const { corner } = useCorner.getState();
    if (corner === undefined) return;
    const again = await this.openText(JSON.stringify(corner.design.source), corner.design.assets);
    if (again.kind === 'open') this.showChanged(again.corner);
  }

  private reject(request: OpenRequest & { kind: 'file' }, problems: readonly Problem[]): void {
    const { fileName, text, options } = request;
    this.rejectedFile = request;
    const repairable = repairableSource(text) !== undefined;
    useCorner.setState(
      options.onProblems === undefined
        ? { opening: undefined, rejected: { fileName, problems, repairable } }
        : { opening: undefined },
    );
    options.onProblems?.(problems);
  }

  private showFile({ fileName, text, options }: OpenRequest & { kind: 'file' }, result: BuildResult): void {
    const { corner, problems, earlier } = result;
    const { changes, now, saved } = options.history ?? initialHistory(fileName, text, options, corner);
    const current = changes[now];
    const shown = corner === undefined ? undefined : (earlier ?? current);
    const { onDisk, assets = NO_ASSETS } = options;
    const checked = current.source;
    useDocument.setState({ fileName, assets, onDisk, changes, now, saved, problems, checked, shown });
    useView.setState(({ unit }) => ({
      pair: undefined,
      limit: undefined,
      charted: [],
      part: undefined,
      sheet: undefined,
      hidden: new Set(),
      unit: options.view?.unit ?? corner?.design.corner.unit ?? unit,
      camera: options.view?.camera,
    }));
    endSection();
    usePose.setState({ drawn: undefined });
    useCorner.setState(({ opened: count }) => ({
      opened: count + 1,
      opening: undefined,
      rejected: undefined,
    }));
    if (corner === undefined) this.showNoCorner();
    else this.showFirst(corner, options.view);
  }

  /** Shows the first corner of a file, in its saved view if there is one. */
  private showFirst(corner: OpenCorner, view?: SavedView): void {
    this.show(corner, view?.travelMm ?? 0, view?.steer ?? 0);
    useView.getState().requestView(view?.camera === undefined ? 'threeQuarter' : 'kept');
  }

  /** Removes the corner from the screen, if no state of the file can be built. */
  private showNoCorner(): void {
    this.stopWork();
    usePose.setState({ view: undefined, measured: undefined, probeFailure: undefined });
    useCorner.setState({ corner: undefined, swept: undefined, progress: undefined });
  }

  /** Shows the changed file, at the current pose and in the current view. */
  private showEdit(change: Change, { problems, corner }: BuildResult): void {
    useDocument.setState({ problems, checked: change.source });
    if (corner === undefined) return;
    useDocument.setState({ shown: change });
    if (useCorner.getState().corner === undefined) this.showFirst(corner);
    else this.showChanged(corner);
  }

  private showChanged(corner: OpenCorner): void {
    const before = useCorner.getState().corner;
    useView.setState(({ pair, charted, part }) => ({
      charted: charted.flatMap((one) => (before && samePair(before, one, corner)) ?? []),
      pair: before === undefined || pair === undefined ? undefined : samePair(before, pair, corner),
      part: before === undefined || part === undefined ? undefined : samePart(before, part, corner),
    }));
    const { travelMm, steer } = usePose.getState();
    // Names, notes and recorded gaps change no result.
    const isMeasured =
      useCorner.getState().progress?.kind === 'done' && before?.design.hash === corner.design.hash;
    this.show(corner, travelMm, steer, isMeasured);
  }

  /** `isMeasured`: the finished results on screen are those of the corner too. */
  private show(corner: OpenCorner, travelMm: number, steer: number, isMeasured = false): void {
    this.stopWork();
    usePose.setState({ measured: undefined, probeFailure: undefined });
    useCorner.setState({ corner, ...(isMeasured ? {} : { swept: undefined, progress: undefined }) });
    this.moveTo(travelMm, steer);
    void this.startProbe(corner);
    if (!isMeasured) void this.sweep();
  }

  /** Starts a probe that measures the current pose. */
  private async startProbe(corner: OpenCorner): Promise<void> {
    this.probedCorner = corner;
    const fail = (why: string) => {
      if (this.probedCorner === corner) usePose.setState({ probeFailure: why });
    };
    try {
      const probe = await corner.probe(
        (travelMm, steer, row) =>
          afterPicture('measured', () => {
            if (this.probedCorner === corner) usePose.setState({ measured: { travelMm, steer, row } });
          }),
        fail,
      );
      if (this.probedCorner !== corner) return probe.end();
      this.probe = probe;
      const { travelMm, steer } = usePose.getState();
      probe.request(travelMm, steer);
    } catch (error) {
      fail((error as Error).message);
    }
  }

  /** Stops sweep, probe and playback of the current corner. */
  private stopWork(): void {
    this.sweepRunner.cancel();
    this.probe?.end();
    this.probe = undefined;
    this.probedCorner = undefined;
    usePose.setState({ playing: false });
  }

  /** Poses the corner. `steer` is that of the left corner; both values are clamped to the corner's travel and lock. */
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
    this.probe?.request(travel, lock);
  }

  /** Sweeps the current corner from the start, then proves the range between the steps. */
  sweep = (): Promise<void> => this.sweepRunner.sweep();

  /** Proves the range between the steps of the current sweep. */
  prove = (): Promise<void> => this.sweepRunner.prove();

  cancelSweep = (): void => this.sweepRunner.cancel();

  /** Selects a pair, poses the corner at the pair's worst case and views it square-on. */
  showPair(pair: number): void {
    const { swept } = useCorner.getState();
    const worst = swept?.findings.pairs.find((finding) => finding.pair === pair)?.worst;
    usePose.setState({ playing: false });
    useView.setState({ pair, limit: undefined, part: undefined, hiding: [] });
    const chosen = useCorner.getState().corner?.pairs[pair];
    if (worst === undefined) {
      // Joined parts that are far apart elsewhere: the view shows their zones.
      if (chosen !== undefined && isJoined(chosen)) useView.getState().requestView('pair');
      return;
    }
    if (chosen?.moves) this.moveTo(worst.travelMm, worst.steer);
    else this.moveTo(0, 0);
    useView.getState().requestView('pair');
  }

  /** Selects a joint or damper and poses the corner at its worst case. */
  showLimit(limit: LimitFinding): void {
    const { corner } = useCorner.getState();
    if (corner === undefined) return;
    usePose.setState({ playing: false });
    useView.setState({ limit: limitKey(corner.design.corner, limit), pair: undefined });
    if (limit.worst !== undefined) this.moveTo(limit.worst.travelMm, limit.worst.steer);
  }

  /**
   * Report of the current state, to be written in one of its forms; `study` gets the results of studies for it. Refused before the sweep is
   * complete, if the file has wrong values, and if a study fails.
   */
  async report(study: (corner: OpenCorner) => Promise<ReportStudies>): Promise<Report> {
    const { corner, swept } = useCorner.getState();
    const isWhole = swept !== undefined && swept.findings.verdict !== 'incomplete';
    const why = reportRefusal(statusOf(useDocument.getState()), isWhole);
    if (why !== undefined) return { kind: 'refused', why };
    if (corner === undefined || swept === undefined) return { kind: 'refused', why: 'no corner is open' };
    let studies: ReportStudies;
    try {
      studies = await study(corner);
    } catch (error) {
      return { kind: 'refused', why: (error as Error).message };
    }
    const parts = await corner.report(swept.result, swept.findings, studies, useView.getState().unit);
    const isCurrent =
      useCorner.getState().corner === corner && statusOf(useDocument.getState()) === 'current';
    if (!isCurrent) return { kind: 'refused', why: 'the corner was changed while the report was made' };
    return { kind: 'report', name: `${fileNameOf(corner.design.corner.name)}-clearance`, ...parts };
  }
}

/** A report with the name of its file, without its ending; or the reason why there is none. */
export type Report = ({ kind: 'report'; name: string } & ReportParts) | { kind: 'refused'; why: string };

/** Whether a file is opened even with wrong values. */
const opensDespiteProblems = ({ options, text }: OpenRequest & { kind: 'file' }): boolean =>
  options.history !== undefined || (options.repair === true && repairableSource(text) !== undefined);

/** History of a newly opened file: one state. */
function initialHistory(
  fileName: string,
  text: string,
  options: OpenOptions,
  corner: OpenCorner | undefined,
): Omit<History, 'shown'> {
  const source = corner?.design.source ?? repairableSource(text);
  const first = { label: options.label ?? `Opened ${fileName}`, source, at: new Date(), merge: undefined };
  return { changes: [first], now: 0, saved: options.unsaved ? undefined : source };
}

export const SessionContext = createContext<Session | undefined>(undefined);

export function useSession(): Session {
  const session = useContext(SessionContext);
  if (session === undefined) throw new Error('useSession must be used inside the workbench');
  return session;
}
