/** Fewer steps than in a sweep: the clearances between them are proved, and the proof takes most of the time. */
export const FEWER_STEPS = { travelSteps: 13, steerSteps: 9 };
