import { beforeEach, describe, expect, it } from 'vitest';
import type { Engine, OpenCorner, Opened } from '../../src/app/engine.ts';
import { Session } from '../../src/app/session.ts';
import { type Swept, useCorner } from '../../src/app/stores/cornerStore.ts';
import { sourceInHand, useDocument } from '../../src/app/stores/documentStore.ts';
import { withValue } from '../../src/design/edit.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { valueAt } from '../../src/design/path.ts';
import type { Findings } from '../../src/findings/findings.ts';
import { HUB_FACE } from '../../src/solids/heldHub.ts';
import { axialStack } from '../../src/solids/wheelFrame.ts';
import { POSE_STATES } from '../../src/sweep/result.ts';
import { minimalCorner } from '../design/fixtures.ts';

/** An engine that opens every text when told to: JSON of `{ bad: true }` is no corner, every other is. */
class HeldEngine implements Engine {
  /** Texts in the order in which they were opened. */
  readonly asked: string[] = [];
  private readonly waiting: (() => void)[] = [];

  open(text: string): Promise<Opened> {
    this.asked.push(text);
    return new Promise((resolve) => this.waiting.push(() => resolve(answerTo(text))));
  }

  /** Answers what is asked until nothing is any more. */
  async settle(): Promise<void> {
    for (let turn = 0; turn < 20; turn++) {
      this.waiting.shift()?.();
      await new Promise((resolve) => setTimeout(resolve));
    }
  }
}

function answerTo(text: string): Opened {
  const source = JSON.parse(text);
  if (source.bad)
    return { kind: 'bad', problems: [{ path: 'bad', found: 'true', message: 'it must be sound' }] };
  const corner = {
    design: {
      source,
      corner: { unit: 'mm', parts: [], suspension: { travel: { bump: 50, droop: 50 } } },
    },
    solids: [],
    pairs: [],
    travelMm: Float64Array.of(0),
    poseAt: () => ({ pose: { kind: 'unreachable', reason: 'a test', nearest: undefined } }),
    probe: async () => ({ ask() {}, end() {} }),
    sweep: () => new Promise(() => {}),
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

describe('what is wanted while something else is being opened', () => {
  it('is opened, the newest of files alone, every state of an edit', async () => {
    void session.open('second.corner.json', '{"name":"second"}');
    void session.open('third.corner.json', '{"name":"third"}');
    void session.open('fourth.corner.json', '{"name":"fourth"}');
    await engine.settle();
    expect(engine.asked.slice(1)).toEqual(['{"name":"second"}', '{"name":"fourth"}']);
    expect(shown()).toEqual({ name: 'fourth' });
  });

  it('is opened too when it comes as the last one is shown', async () => {
    let more = true;
    const stop = useCorner.subscribe(({ corner }, before) => {
      if (!more || corner === before.corner) return;
      more = false;
      // Some microtasks later, as an effect of what is shown would.
      for (let n = 1; n < 6; n++) {
        let later = Promise.resolve();
        for (let k = 0; k < n; k++) later = later.then(() => {});
        void later.then(() => void session.change(`change ${n}`, { name: `change ${n}` }));
      }
    });
    void session.open('second.corner.json', '{"name":"second"}');
    await engine.settle();
    stop();
    expect(sourceInHand(useDocument.getState())).toEqual({ name: 'change 5' });
    expect(shown()).toEqual({ name: 'change 5' });
  });

  it('leaves the engine with the corner that is shown, where the newest file is no corner', async () => {
    void session.open('second.corner.json', '{"name":"second"}');
    void session.open('third.corner.json', '{"bad":true}');
    await engine.settle();
    // The second was built, but never shown.
    expect(shown()).toEqual({ name: 'first' });
    expect(engine.asked.at(-1)).toBe('{"name":"first"}');
    expect(useCorner.getState().rejected?.fileName).toBe('third.corner.json');
  });
});

describe('a report', () => {
  const result = { poseState: Uint8Array.of(POSE_STATES.indexOf('solved')) };
  const sweptWith = (verdict: Findings['verdict']) => {
    const { corner } = useCorner.getState();
    if (corner === undefined) throw new Error('no corner is open');
    Object.assign(corner.design.corner, { name: 'A corner' });
    Object.assign(corner, { report: async () => '<html>' });
    useCorner.setState({ swept: { result, findings: { verdict } } as unknown as Swept });
  };

  it('is not made while joints and dampers are not computed, though every pose is measured', async () => {
    sweptWith('incomplete');
    expect(await session.report()).toBeUndefined();
    sweptWith('clear');
    expect(await session.report()).toEqual({ fileName: 'A-corner-clearance.html', html: '<html>' });
  });
});

it('a change of the wheel keeps the hub in its place', async () => {
  const corner = minimalCorner();
  const { hubFace: _, ...suspension } = corner.suspension as Record<string, unknown>;
  const read = parseDesign(JSON.stringify({ ...corner, suspension }));
  if (read.kind === 'bad') throw new Error(JSON.stringify(read.problems));
  const { design } = read;
  useCorner.setState((state) => ({ corner: state.corner && { ...state.corner, design } }));
  const wheel = corner.parts.findIndex(({ kind }) => kind === 'wheel');
  void session.change('Wheel, offset', withValue(design.source, ['parts', wheel, 'offset'], 12));
  const changed = sourceInHand(useDocument.getState());
  expect(valueAt(changed, ['parts', wheel, 'offset'])).toBe(12);
  expect(valueAt(changed, HUB_FACE)).toBeCloseTo(axialStack(design.corner).hubFaceY, 6);
  await engine.settle();
});
