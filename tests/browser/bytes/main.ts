import { clockingWorkers } from '../../../src/app/fit/clockingWorkers.ts';
import { parseDesign } from '../../../src/design/parse.ts';
import { crewOfWorkers } from '../../../src/executors/browserWorkers.ts';
import { studyClocking } from '../../../src/studies/clocking/study.ts';
import { setUp } from '../../../src/sweep/setUp.ts';
import { digestOfClocking, digestsOf, STEPS } from './digests.ts';

declare global {
  interface Window {
    sweptInWorkers(designText: string): Promise<Record<string, string>>;
    clockedInWorkers(designText: string): Promise<string>;
  }
}

/** Sweeps and proves a corner in two workers of this page. */
window.sweptInWorkers = async (designText) => {
  const crew = crewOfWorkers(2);
  try {
    await crew.open(designText, STEPS);
    const result = await crew.sweep();
    return digestsOf(result, await crew.prove(result));
  } finally {
    crew.end();
  }
};

/** Studies the clockings of a corner in two workers of this page. */
window.clockedInWorkers = async (designText) => {
  const parsed = parseDesign(designText);
  if (parsed.kind === 'bad') throw new Error('the corner is not sound');
  const crew = clockingWorkers(2);
  try {
    return digestOfClocking(await studyClocking(await setUp(parsed.design, STEPS), { crew }));
  } finally {
    crew.end();
  }
};
