import { signal } from '@preact/signals';

/** A newer build lies ready; it serves no page before it is asked to. */
export const newer = signal<ServiceWorker | undefined>(undefined);

export const takeNewer = (): void => newer.value?.postMessage('take over');

/** Keeps the page for use without a network. Where a browser cannot, everything else works as before. */
export async function keepPage(): Promise<void> {
  if (!('serviceWorker' in navigator)) return;
  const { serviceWorker } = navigator;
  // A page of the older build would ask for files that are gone.
  if (serviceWorker.controller) serviceWorker.addEventListener('controllerchange', () => location.reload());
  try {
    const registration = await serviceWorker.register(new URL('sw.js', document.baseURI));
    const look = (): void => {
      newer.value = serviceWorker.controller ? (registration.waiting ?? undefined) : undefined;
    };
    look();
    registration.addEventListener('updatefound', () =>
      registration.installing?.addEventListener('statechange', look),
    );
  } catch {
    // A private window, a page opened from a file, or one served while it is being written.
  }
}
