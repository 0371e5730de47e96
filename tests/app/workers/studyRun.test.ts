import { expect, it } from 'vitest';
import { type OnStudyProgress, StudyRun, type StudyState } from '../../../src/app/workers/studyRun.ts';

/** A study under the test's control. */
function study() {
  const calls = { cancelled: 0 };
  let settle: { done(found: string): void; fail(why: Error): void } = { done() {}, fail() {} };
  let onProgress: OnStudyProgress = () => {};
  const result = new Promise<string>((done, fail) => {
    settle = { done, fail };
  });
  return {
    calls,
    begin(report: OnStudyProgress) {
      onProgress = report;
      return { result, cancel: () => calls.cancelled++ };
    },
    progress: (...given: Parameters<OnStudyProgress>) => onProgress(...given),
    done: (found: string) => settle.done(found),
    fail: (why: string) => settle.fail(new Error(why)),
  };
}

function recorded() {
  const states: StudyState<string>[] = [];
  const run = new StudyRun<unknown, string>((state) => states.push(state));
  return { states, run };
}

const of = (label: string) => ({ designHash: 'hash', label });
const settled = () => new Promise((resolve) => setTimeout(resolve));

it('shows neither progress nor result nor failure of a superseded study, whose worker lives on', async () => {
  const { states, run } = recorded();
  const [first, second, third] = [study(), study(), study()];
  run.startCall(of('first'), first.begin);
  run.startCall(of('second'), second.begin);
  run.startCall(of('third'), third.begin);
  expect([first, second, third].map(({ calls }) => calls.cancelled)).toEqual([1, 1, 0]);
  first.progress(1, 2);
  first.fail('This operation was aborted');
  second.done('too late');
  third.done('found');
  await settled();
  expect(states.map(({ kind }) => kind)).toEqual(['running', 'running', 'running', 'done']);
  expect(states.at(-1)).toEqual({ kind: 'done', found: 'found', ...of('third') });
});

it('shows a cancelled study as cancelled, whatever its worker replies then', async () => {
  const { states, run } = recorded();
  const only = study();
  run.startCall(of('only'), only.begin);
  run.cancel();
  only.fail('This operation was aborted');
  await settled();
  expect(states.at(-1)).toEqual({ kind: 'cancelled', ...of('only') });
  expect(only.calls.cancelled).toBe(1);
});

it('shows the first of many reports of progress at once, and those that follow at once not', async () => {
  const { states, run } = recorded();
  const only = study();
  run.startCall(of('only'), only.begin);
  for (let done = 1; done <= 1000; done++) only.progress(done, 1000, 'values changed');
  expect(states[1]).toEqual({ kind: 'running', done: 1, total: 1000, what: 'values changed', ...of('only') });
  expect(states.length).toBeLessThan(50);
  only.fail('it broke');
  await settled();
  expect(states.at(-1)).toEqual({ kind: 'failed', why: 'it broke', ...of('only') });
});
