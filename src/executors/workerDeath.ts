/** Tells why a browser worker ended: in the words of the error that it met, or that it never ran. */
export function onWorkerDeath(worker: Worker, tell: (why: string) => void): void {
  // A script that cannot be loaded is an event without words.
  worker.addEventListener('error', ({ message }) => tell(message || 'its script could not be loaded'));
}
