import { create } from 'zustand';
import { createJSONStorage, persist } from 'zustand/middleware';
import type { Answers } from './answers.ts';

interface StartState {
  /** Whether the sheet of a new corner is on screen. */
  open: boolean;
  /** What was typed there, kept until a corner is made of it; undefined before anything was. */
  answers: Answers | undefined;
}

/** The new corner that is being described. What is typed outlasts the sheet and a reload of the page. */
export const useStart = create<StartState>()(
  persist((): StartState => ({ open: false, answers: undefined }), {
    name: 'daylight-new-corner',
    storage: createJSONStorage(() => sessionStorage),
    partialize: ({ answers }) => ({ answers }),
  }),
);
