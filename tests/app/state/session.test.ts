import { beforeEach, describe, expect, it, vi } from 'vitest';
import { type Swept, useCorner } from '../../../src/app/state/cornerStore.ts';
import {
  type Change,
  currentSource,
  isUnsaved,
  statusOf,
  useDocument,
} from '../../../src/app/state/documentStore.ts';
import type { Engine, OpenCorner, Opened } from '../../../src/app/state/engine.ts';
import { withHistory } from '../../../src/app/state/keep/drafts.ts';
import { Session } from '../../../src/app/state/session.ts';
import { assetOf, type CornerFiles, NO_ASSETS } from '../../../src/design/assets.ts';
import { withValue } from '../../../src/design/edit.ts';
import { valueAt } from '../../../src/design/path.ts';
import { FORMAT, VERSION } from '../../../src/design/schema.ts';
import type { Findings } from '../../../src/findings/findings.ts';
import { HUB_FACE } from '../../../src/solids/heldHub.ts';
import { axialStack } from '../../../src/solids/wheelFrame.ts';
import { POSE_STATES } from '../../../src/sweep/result.ts';
import { minimalCorner } from '../../design/fixtures.ts';
import { readDesign } from '../../design/readDesign.ts';

/** An engine that holds back its results until `settle`. The JSON `{ bad: true }` has problems, every other is a corner. */
class HeldEngine implements Engine {
  /** Texts in the order in which they were opened. */
  readonly openedTexts: string[] = [];
  private readonly waiting: (() => void)[] = [];

  /** Names of the assets of each. */
  readonly openedAssets: string[][] = [];

  open({ text, assets }: CornerFiles): Promise<Opened> {
    this.openedTexts.push(text);
    this.openedAssets.push([...assets.keys()]);
    return new Promise((resolve) => this.waiting.push(() => resolve(resultFor(text))));
  }

  /** Releases results until no request is pending. */
  async settle(): Promise<void> {
    for (let turn = 0; turn < 20; turn++) {
      this.waiting.shift()?.();
      await new Promise((resolve) => setTimeout(resolve));
    }
  }
}

/** Number of sweeps started. */
let sweeps = 0;

function resultFor(text: string): Opened {
  const source = JSON.parse(text);
  if (source.bad)
    return { kind: 'bad', problems: [{ path: 'bad', found: 'true', message: 'it must be sound' }] };
  const corner = {
    design: {
      source,
      assets: NO_ASSETS,
      hash: JSON.stringify({ ...source, note: undefined }),
      corner: { unit: 'mm', parts: [], suspension: { travel: { bump: 50, droop: 50 } } },
    },
    solids: [],
    pairs: [],
    travelMm: Float64Array.of(0),
    poseAt: () => ({ pose: { kind: 'unreachable', reason: 'a test', nearest: undefined } }),
    probe: async () => ({ request() {}, end() {} }),
    sweep() {
      sweeps += 1;
      return new Promise(() => {});
    },
  };
  return { kind: 'open', corner: corner as unknown as OpenCorner };
}

const shown = () => useCorner.getState().corner?.design.source;
let engine: HeldEngine;
let session: Session;

beforeEach(async () => {
  engine = new HeldEngine();
  session = new Session(engine);
  void session.open('first.corner.json', '{"name":"first"}');
  await engine.settle();
  expect(shown()).toEqual({ name: 'first' });
});

const noStudies = async () => ({ mockup: undefined, measuringError: undefined });

describe('requests while another one is being handled', () => {
  it('opens only the newest of several files', async () => {
    void session.open('second.corner.json', '{"name":"second"}');
    void session.open('third.corner.json', '{"name":"third"}');
    void session.open('fourth.corner.json', '{"name":"fourth"}');
    await engine.settle();
    expect(engine.openedTexts.slice(1)).toEqual(['{"name":"second"}', '{"name":"fourth"}']);
    expect(shown()).toEqual({ name: 'fourth' });
  });

  it('handles changes that arrive while the last corner is being shown', async () => {
    let more = true;
    const stop = useCorner.subscribe(({ corner }, before) => {
      if (!more || corner === before.corner) return;
      more = false;
      // Some microtasks later, like an effect of the rendering.
      for (let n = 1; n < 6; n++) {
        let later = Promise.resolve();
        for (let k = 0; k < n; k++) later = later.then(() => {});
        void later.then(() => void session.change(`change ${n}`, { name: `change ${n}` }));
      }
    });
    void session.open('second.corner.json', '{"name":"second"}');
    await engine.settle();
    stop();
    expect(currentSource(useDocument.getState())).toEqual({ name: 'change 5' });
    expect(shown()).toEqual({ name: 'change 5' });
  });

  it('reopens the shown corner in the engine if the newest file is rejected', async () => {
    void session.open('second.corner.json', '{"name":"second"}');
    void session.open('third.corner.json', '{"bad":true}');
    await engine.settle();
    // The second file was built but not shown.
    expect(shown()).toEqual({ name: 'first' });
    expect(engine.openedTexts.at(-1)).toBe('{"name":"first"}');
    expect(useCorner.getState().rejected?.fileName).toBe('third.corner.json');
  });
});

const change = (label: string, source: unknown): Change => ({
  label,
  source,
  at: new Date(0),
  merge: undefined,
});
const current = () => currentSource(useDocument.getState());

describe('a state with wrong values', () => {
  it('keeps the last valid state on screen and names it, also before the engine has replied', async () => {
    void session.change('width 8', { name: 'eight' });
    await engine.settle();
    void session.change('width abc', { bad: true });
    expect(statusOf(useDocument.getState())).toBe('building');
    expect(useDocument.getState().shown?.label).toBe('width 8');
    await engine.settle();
    expect(statusOf(useDocument.getState())).toBe('wrong');
    expect(useDocument.getState().shown?.source).toEqual({ name: 'eight' });
    void session.undo();
    await engine.settle();
    expect(statusOf(useDocument.getState())).toBe('current');
  });

  it('is opened from a draft with its history, and shows the last state that can be built', async () => {
    const [opened, eight, wrong] = [
      change('Opened first', { name: 'first' }),
      change('width 8', { name: 'eight' }),
      change('width abc', { bad: true }),
    ];
    // A draft stored before the engine had replied names no valid state.
    for (const last of [eight, undefined, wrong]) {
      const history = { changes: [opened, eight, wrong], now: 2, saved: opened.source, shown: last };
      void session.open('kept.corner.json', '{"bad":true}', { history });
      await engine.settle();
      const document = useDocument.getState();
      expect(shown()).toEqual({ name: 'eight' });
      expect(current()).toEqual({ bad: true });
      expect(document.problems).toHaveLength(1);
      expect(document.shown?.label).toBe('width 8');
      expect(document.changes.map(({ label }) => label)).toEqual(['Opened first', 'width 8', 'width abc']);
      expect(isUnsaved(document)).toBe(true);
      expect(useCorner.getState().rejected).toBeUndefined();
    }
    void session.undo();
    await engine.settle();
    expect(current()).toEqual({ name: 'eight' });
    expect(statusOf(useDocument.getState())).toBe('current');
  });

  it('is opened from a draft without a corner if no state is valid, and shows the corner once it is corrected', async () => {
    const wrong = change('Opened wrong', { bad: true });
    const history = { changes: [wrong], now: 0, saved: undefined, shown: undefined };
    void session.open('kept.corner.json', '{"bad":true}', { history });
    await engine.settle();
    expect(useCorner.getState().corner).toBeUndefined();
    expect(current()).toEqual({ bad: true });
    void session.change('corrected', { name: 'corrected' });
    await engine.settle();
    expect(shown()).toEqual({ name: 'corrected' });
  });

  it('is offered for repair in a file, which replaces the open one only when chosen', async () => {
    const text = JSON.stringify({ format: FORMAT, version: VERSION, bad: true });
    void session.open('wrong.corner.json', text);
    await engine.settle();
    expect(useCorner.getState().rejected).toMatchObject({ fileName: 'wrong.corner.json', repairable: true });
    expect(current()).toEqual({ name: 'first' });
    void session.openForRepair();
    await engine.settle();
    expect(useCorner.getState().rejected).toBeUndefined();
    expect(useCorner.getState().corner).toBeUndefined();
    expect(current()).toEqual(JSON.parse(text));
    expect(useDocument.getState().problems).toHaveLength(1);
  });

  it('is not offered for repair in a file that is not a corner file', async () => {
    void session.open('other.json', '{"bad":true}');
    await engine.settle();
    expect(useCorner.getState().rejected).toMatchObject({ repairable: false });
    expect(shown()).toEqual({ name: 'first' });
  });
});

describe('a draft stored without a history', () => {
  it('gets a history of the last valid state and the current state', () => {
    const kept = { fileName: 'a', label: 'abc', at: new Date(0), unsaved: true };
    const two = withHistory({ ...kept, source: { bad: true }, sound: { name: 'a' } });
    expect(two.changes.map(({ label }) => label)).toEqual(['Opened a', 'abc']);
    expect([two.now, two.shown?.source, isUnsaved({ ...useDocument.getState(), ...two })]).toEqual([
      1,
      { name: 'a' },
      true,
    ]);
    const one = withHistory({ ...kept, unsaved: false, source: { name: 'a' }, sound: { name: 'a' } });
    expect(one.changes).toHaveLength(1);
    expect(isUnsaved({ ...useDocument.getState(), ...one })).toBe(false);
  });
});

describe('a report', () => {
  const PARTS = { input: 'what it is made of', pictures: 'its drawings' };
  const result = { poseState: Uint8Array.of(POSE_STATES.indexOf('solved')) };
  const sweptWith = (verdict: Findings['verdict']) => {
    const { corner } = useCorner.getState();
    if (corner === undefined) throw new Error('no corner is open');
    Object.assign(corner.design.corner, { name: 'A corner' });
    Object.assign(corner, { report: async () => PARTS });
    useCorner.setState({ swept: { result, findings: { verdict } } as unknown as Swept });
  };

  it('is refused until joints and dampers are computed, even if every pose is measured', async () => {
    sweptWith('incomplete');
    expect(await session.report(noStudies)).toEqual({ kind: 'refused', why: 'the sweep is not finished' });
    sweptWith('clear');
    expect(await session.report(noStudies)).toEqual({
      kind: 'report',
      name: 'A-corner-clearance',
      ...PARTS,
    });
  });

  it('is refused with the reason while a change is being built and while a value is wrong', async () => {
    sweptWith('clear');
    void session.change('width abc', { bad: true });
    expect(await session.report(noStudies)).toEqual({
      kind: 'refused',
      why: 'the last change is still being built',
    });
    await engine.settle();
    expect(await session.report(noStudies)).toEqual({
      kind: 'refused',
      why: 'the file has wrong values, correct them first',
    });
    void session.undo();
    await engine.settle();
    // Built again, but not swept yet.
    expect(await session.report(noStudies)).toEqual({ kind: 'refused', why: 'the sweep is not finished' });
  });

  it('is refused with the reason if a study for it fails', async () => {
    sweptWith('clear');
    const fails = () => Promise.reject(new Error('the mock-up cannot be compared: the pose is out of reach'));
    expect(await session.report(fails)).toEqual({
      kind: 'refused',
      why: 'the mock-up cannot be compared: the pose is out of reach',
    });
  });

  it('is refused if the corner is changed while the report is made', async () => {
    sweptWith('clear');
    let finish: ((parts: object) => void) | undefined;
    const slowly = () =>
      new Promise<object>((resolve) => {
        finish = resolve;
      });
    Object.assign(useCorner.getState().corner ?? {}, { report: slowly });
    const made = session.report(noStudies);
    await vi.waitFor(() => expect(finish).toBeDefined());
    void session.change('width 9', { name: 'nine' });
    finish?.(PARTS);
    expect(await made).toEqual({ kind: 'refused', why: 'the corner was changed while the report was made' });
    await engine.settle();
  });
});

it('opens every state of a file with the files beside it, until another file is opened', async () => {
  const assets = new Map([['bracket.stl', assetOf(new Uint8Array(3))]]);
  void session.open('with.corner.json', '{"name":"with"}', { assets });
  await engine.settle();
  void session.change('width 9', { name: 'nine' });
  await engine.settle();
  expect(useDocument.getState().assets).toBe(assets);
  void session.open('other.corner.json', '{"name":"other"}');
  await engine.settle();
  expect(engine.openedAssets.slice(1)).toEqual([['bracket.stl'], ['bracket.stl'], []]);
  expect(useDocument.getState().assets.size).toBe(0);
});

it('keeps finished results if a change does not affect them, and sweeps again if it does', async () => {
  const swept = { result: {}, findings: {} } as unknown as Swept;
  const before = sweeps;
  const changeTo = async (source: unknown) => {
    void session.change('change', source);
    await engine.settle();
    expect(shown()).toEqual(source);
    return useCorner.getState();
  };
  // The sweep is not finished: it starts again.
  await changeTo({ name: 'first', note: 'a' });
  expect(sweeps).toBe(before + 1);
  useCorner.setState({ swept, progress: { kind: 'done' } });
  expect(await changeTo({ name: 'first', note: 'b' })).toMatchObject({ swept, progress: { kind: 'done' } });
  expect(sweeps).toBe(before + 1);
  expect((await changeTo({ name: 'second', note: 'b' })).swept).toBeUndefined();
  expect(sweeps).toBe(before + 2);
});

it('keeps the hub in its place when the wheel is changed', async () => {
  const corner = minimalCorner();
  const { hubFace: _, ...suspension } = corner.suspension as Record<string, unknown>;
  const design = readDesign({ ...corner, suspension });
  useCorner.setState((state) => ({ corner: state.corner && { ...state.corner, design } }));
  const wheel = corner.parts.findIndex(({ kind }) => kind === 'wheel');
  void session.change('Wheel, offset', withValue(design.source, ['parts', wheel, 'offset'], 12));
  const changed = currentSource(useDocument.getState());
  expect(valueAt(changed, ['parts', wheel, 'offset'])).toBe(12);
  expect(valueAt(changed, HUB_FACE)).toBeCloseTo(axialStack(design.corner).hubFaceY, 6);
  await engine.settle();
});
