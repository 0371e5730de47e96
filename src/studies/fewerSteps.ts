/** Fewer steps than a sweep has: what lies between them is proved, and takes most of the time. */
export const FEWER_STEPS = { travelSteps: 13, steerSteps: 9 };
