import { useCorner } from '../stores/cornerStore.ts';

/**
 * Has the built workbench kept by the browser, so that it works without a network: once the first corner is swept and
 * proved, as what is fetched for it would stand in the way of the first map.
 */
export function keepOffline(): void {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
  const stop = useCorner.subscribe(({ progress }) => {
    if (progress?.kind !== 'done') return;
    stop();
    // Without it the workbench works as before, but for a network that fails.
    navigator.serviceWorker.register(`${import.meta.env.BASE_URL}sw.js`).catch(() => {});
  });
}
