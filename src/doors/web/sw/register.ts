/** What the page knows about a newer build: nothing, or how to take it when the maker says so. */
export interface Update {
  readonly take: () => void;
}

/**
 * Registers the service worker where the browser allows one (loopback or TLS; elsewhere the page just needs its server).
 * @param onUpdate called when a newer build lies ready
 */
export function keepOffline(onUpdate: (update: Update) => void): void {
  if (!('serviceWorker' in navigator) || !import.meta.env.PROD) return;
  let taking = false;
  navigator.serviceWorker.addEventListener('controllerchange', () => {
    if (taking) location.reload();
  });
  const offer = (waiting: ServiceWorker): void =>
    onUpdate({
      take: () => {
        taking = true;
        waiting.postMessage('take-over');
      },
    });
  navigator.serviceWorker
    .register('/sw.js')
    .then((registration) => {
      if (registration.waiting !== null && navigator.serviceWorker.controller !== null) offer(registration.waiting);
      registration.addEventListener('updatefound', () => {
        const arriving = registration.installing;
        arriving?.addEventListener('statechange', () => {
          if (arriving.state === 'installed' && navigator.serviceWorker.controller !== null) offer(arriving);
        });
      });
      return undefined;
    })
    .catch(() => undefined); // Without it everything still works while the server is reachable.
}
