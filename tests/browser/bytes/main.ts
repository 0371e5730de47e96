import { crewOfWorkers } from '../../../src/executors/browserWorkers.ts';
import { digestsOf, STEPS } from './digests.ts';

declare global {
  interface Window {
    sweptInWorkers(designText: string): Promise<Record<string, string>>;
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
