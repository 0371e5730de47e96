/** Fewer steps than in a sweep: the clearances between them are proved, and the proof takes most of the time. */
export const FEWER_STEPS = { travelSteps: 13, steerSteps: 9 };

/** Settings with at most that many steps. */
export const fewerSteps = <S extends typeof FEWER_STEPS>(settings: S): S => ({
  ...settings,
  travelSteps: Math.min(settings.travelSteps, FEWER_STEPS.travelSteps),
  steerSteps: Math.min(settings.steerSteps, FEWER_STEPS.steerSteps),
});
