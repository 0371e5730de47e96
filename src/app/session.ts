import { createContext, useContext } from 'react';
import type { Problem } from '../design/problem.ts';
import type { LimitFinding } from '../findings/limitFindings.ts';
import { isJoined } from '../report/treatment.ts';
import { withHubKept } from '../solids/heldHub.ts';
import type { Engine, OpenCorner, Opened, Probe } from './engine.ts';
import type { Look } from './keep/look.ts';
import { earlierStates, repairableSource } from './openForRepair.ts';
import { samePair, samePart } from './sameInBoth.ts';
import { endSection } from './section/sectionStore.ts';
import { useCorner } from './stores/cornerStore.ts';
import {
  type Change,
  type History,
  type OnDisk,
  standingOf,
  useDocument,
  withChange,
} from './stores/documentStore.ts';
import { usePose } from './stores/poseStore.ts';
import { limitKey, useView } from './stores/viewStore.ts';
import { Sweeping } from './sweeping.ts';
import { whyNoReport } from './whyNoReport.ts';

/** Far above any corner file: a mesh or a film dropped by mistake is not read as text. */
const LARGEST_FILE_BYTES = 5_000_000;

/** A file to be opened, or a state of the file in hand to be built. */
type Wanted =
  | { kind: 'file'; fileName: string; text: string; from: OpenedFrom }
  | { kind: 'edit'; change: Change };

/** A corner to show, with the state of its file where that is an earlier one; or none; and what is wrong. */
interface Found {
  problems: readonly Problem[];
  corner: OpenCorner | undefined;
  earlier?: Change;
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
  /** Its states where they were kept; `text` is the one in hand. It is then opened with wrong values too. */
  history?: History;
  /** Opens it although values are wrong, to correct them. */
  repair?: boolean;
  /** Told what is wrong with it, in place of everybody. */
  onProblems?(problems: readonly Problem[]): void;
}

/** What a person can do on the workbench. Owns the engine's workers; tells the stores. */
export class Session {
  private readonly engine: Engine;
  private probe: Probe | undefined;
  private probed: OpenCorner | undefined;
  private readonly sweeping = new Sweeping();
  private wanted: Wanted | undefined;
  private opening: Promise<void> | undefined;
  /** The file of which the problems are shown, to be opened for repair. */
  private refused: (Wanted & { kind: 'file' }) | undefined;

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
      const problems = [{ path: '', found: '', message }];
      useCorner.setState({ rejected: { fileName: file.name, problems, repairable: false } });
      return;
    }
    const onDisk = handle && { handle, lastModified: file.lastModified };
    await this.open(file.name, await file.text(), { onDisk });
  }

  /** Opens the file that was rejected for its wrong values, so that they can be corrected. */
  async openForRepair(): Promise<void> {
    const { refused } = this;
    if (refused === undefined) return;
    await this.open(refused.fileName, refused.text, { ...refused.from, repair: true });
  }

  /** Resolves when the newest state of the file in hand is built, or found wrong. */
  settled = async (): Promise<void> => this.opening;

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
    const { changes, now } = useDocument.getState();
    await this.want({ kind: 'edit', change: changes[now] });
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
        const found = await this.find(wanted);
        // While a value is dragged every state on the way is shown; of files only the last.
        const newer = this.wanted as Wanted | undefined;
        if (newer?.kind === 'file' || (newer !== undefined && wanted.kind === 'file')) {
          skipped ||= found.corner !== undefined;
          continue;
        }
        const isRejected = wanted.kind === 'file' && found.corner === undefined && !opensAnyway(wanted);
        if (skipped && found.corner === undefined) await this.buildAgain();
        skipped = false;
        if (wanted.kind === 'edit') this.showEdit(wanted.change, found);
        else if (isRejected) this.reject(wanted, found.problems);
        else this.showFile(wanted, found);
      }
    } finally {
      // At once, not when the promise is looked at: what is wanted meanwhile would wait for nobody.
      this.opening = undefined;
    }
  }

  private async find(wanted: Wanted): Promise<Found> {
    const text = wanted.kind === 'file' ? wanted.text : JSON.stringify(wanted.change.source);
    const opened = await this.openText(text);
    if (opened.kind === 'open') return { problems: [], corner: opened.corner };
    const { problems } = opened;
    if (wanted.kind === 'edit' || wanted.from.history === undefined) return { problems, corner: undefined };
    for (const earlier of earlierStates(wanted.from.history)) {
      const other = await this.openText(JSON.stringify(earlier.source));
      if (other.kind === 'open') return { problems, corner: other.corner, earlier };
    }
    return { problems, corner: undefined };
  }

  private openText(text: string): Promise<Opened> {
    return this.engine.open(text).catch((error: Error) => ({
      kind: 'bad' as const,
      problems: [{ path: '', found: '', message: error.message }],
    }));
  }

  /** Has the engine hold the corner that is on screen again, and measure that. */
  private async buildAgain(): Promise<void> {
    const { corner } = useCorner.getState();
    if (corner === undefined) return;
    const again = await this.openText(JSON.stringify(corner.design.source));
    if (again.kind === 'open') this.showChanged(again.corner);
  }

  private reject(wanted: Wanted & { kind: 'file' }, problems: readonly Problem[]): void {
    const { fileName, text, from } = wanted;
    this.refused = wanted;
    const repairable = repairableSource(text) !== undefined;
    useCorner.setState(
      from.onProblems === undefined
        ? { opening: undefined, rejected: { fileName, problems, repairable } }
        : { opening: undefined },
    );
    from.onProblems?.(problems);
  }

  private showFile({ fileName, text, from }: Wanted & { kind: 'file' }, found: Found): void {
    const { corner, problems, earlier } = found;
    const { changes, now, saved } = from.history ?? startOf(fileName, text, from, corner);
    const inHand = changes[now];
    const shown = corner === undefined ? undefined : (earlier ?? inHand);
    const { onDisk } = from;
    useDocument.setState({ fileName, onDisk, changes, now, saved, problems, checked: inHand.source, shown });
    useView.setState(({ unit }) => ({
      pair: undefined,
      limit: undefined,
      charted: [],
      part: undefined,
      sheet: undefined,
      hidden: new Set(),
      unit: from.look?.unit ?? corner?.design.corner.unit ?? unit,
      camera: from.look?.camera,
    }));
    endSection();
    usePose.setState({ drawn: undefined });
    useCorner.setState(({ opened: count }) => ({
      opened: count + 1,
      opening: undefined,
      rejected: undefined,
    }));
    if (corner === undefined) this.showNothing();
    else this.showFirst(corner, from.look);
  }

  /** Shows the first corner of a file, from where it was looked at before. */
  private showFirst(corner: OpenCorner, look?: Look): void {
    this.show(corner, look?.travelMm ?? 0, look?.steer ?? 0);
    useView.getState().lookFrom(look?.camera === undefined ? 'threeQuarter' : 'kept');
  }

  /** Shows no corner: no state of the file can be built. */
  private showNothing(): void {
    this.leave();
    usePose.setState({ view: undefined, measured: undefined, probeFailure: undefined });
    useCorner.setState({ corner: undefined, swept: undefined, progress: undefined });
  }

  /** Shows the file in hand as it was changed, at the pose and in the view that were in hand. */
  private showEdit(change: Change, { problems, corner }: Found): void {
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
    this.sweeping.cancel();
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
  sweep = (): Promise<void> => this.sweeping.sweep();

  /** Proves what lies between the steps of the sweep in hand. */
  prove = (): Promise<void> => this.sweeping.prove();

  cancelSweep = (): void => this.sweeping.cancel();

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

  /** The report of the state in hand as an HTML page; refused before it is swept and where it has wrong values. */
  async report(): Promise<Report> {
    const { corner, swept } = useCorner.getState();
    const isWhole = swept !== undefined && swept.findings.verdict !== 'incomplete';
    const why = whyNoReport(standingOf(useDocument.getState()), isWhole);
    if (why !== undefined) return { kind: 'refused', why };
    if (corner === undefined || swept === undefined) return { kind: 'refused', why: 'no corner is open' };
    const name = corner.design.corner.name.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '');
    const html = await corner.report(swept.result, swept.findings, useView.getState().unit);
    const isCurrent =
      useCorner.getState().corner === corner && standingOf(useDocument.getState()) === 'current';
    if (!isCurrent) return { kind: 'refused', why: 'the corner was changed while it was made' };
    return { kind: 'report', fileName: `${name || 'corner'}-clearance.html`, html };
  }
}

/** A report, or why there is none. */
export type Report = { kind: 'report'; fileName: string; html: string } | { kind: 'refused'; why: string };

/** Whether a file with wrong values is opened all the same. */
const opensAnyway = ({ from, text }: Wanted & { kind: 'file' }): boolean =>
  from.history !== undefined || (from.repair === true && repairableSource(text) !== undefined);

/** The history of a file that is opened: one state. */
function startOf(
  fileName: string,
  text: string,
  from: OpenedFrom,
  corner: OpenCorner | undefined,
): Omit<History, 'shown'> {
  const source = corner?.design.source ?? repairableSource(text);
  const first = { label: from.label ?? `Opened ${fileName}`, source, at: new Date(), merge: undefined };
  return { changes: [first], now: 0, saved: from.unsaved ? undefined : source };
}

export const SessionContext = createContext<Session | undefined>(undefined);

export function useSession(): Session {
  const session = useContext(SessionContext);
  if (session === undefined) throw new Error('this component stands outside the workbench');
  return session;
}
