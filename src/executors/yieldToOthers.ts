/** Lets the event loop do other work, such as input and cancellation, before a long computation continues. */
export const yieldToOthers = () => new Promise((resolve) => setTimeout(resolve, 0));
