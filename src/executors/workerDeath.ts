/** Reports why a browser worker died: the message of its error, or that its script could not be loaded. */
export function onWorkerDeath(worker: Worker, report: (why: string) => void): void {
  // If the script cannot be loaded, the event has no message.
  worker.addEventListener('error', ({ message }) => report(message || 'its script could not be loaded'));
}
