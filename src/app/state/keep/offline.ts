import { useCorner } from '../cornerStore.ts';

/**
 * Registers the service worker of the built workbench, so that it works without a network. Waits until the first corner is
 * swept and proved, because the downloads would delay the first map.
 */
export function keepOffline(): void {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
  const stop = useCorner.subscribe(({ progress }) => {
    if (progress?.kind !== 'done') return;
    stop();
    // Without the service worker the workbench needs a network; everything else works.
    navigator.serviceWorker.register(`${import.meta.env.BASE_URL}sw.js`).catch(() => {});
  });
}
