import { expose } from 'comlink';
import type { Design } from '../../../design/design.ts';
import { type MockupStudy, mockupOf } from '../../../studies/mockup/mockup.ts';
import type { SweepSettings } from '../../../sweep/result.ts';

const api = {
  /** Compares the gaps of the mock-up with the computed ones: see `mockupOf`. */
  compare: (
    design: Design,
    settings: SweepSettings,
    onProgress: (done: number, total: number) => void,
  ): Promise<MockupStudy> => mockupOf(design, { settings, onProgress }),
};
export type MockupApi = typeof api;
expose(api);
