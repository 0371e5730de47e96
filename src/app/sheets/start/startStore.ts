import { create } from 'zustand';
import { createJSONStorage, persist } from 'zustand/middleware';
import type { Answers } from './answers.ts';

interface StartState {
  /** Whether the sheet of a new corner is open. */
  open: boolean;
  /** The typed answers, kept until a corner is created from them; undefined before anything is typed. */
  answers: Answers | undefined;
}

/** The answers for a new corner. They are kept when the sheet closes and when the page is reloaded. */
export const useStart = create<StartState>()(
  persist((): StartState => ({ open: false, answers: undefined }), {
    name: 'daylight-new-corner',
    storage: createJSONStorage(() => sessionStorage),
    partialize: ({ answers }) => ({ answers }),
  }),
);
