import { create } from 'zustand';
import type { Wants } from '../../studies/clocking/wants.ts';

/** What is wanted of the clockings: kept while sheets open and close, and never part of a file. */
export const useFit = create<{ wants: Wants }>(() => ({ wants: {} }));
