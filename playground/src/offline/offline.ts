import { signal } from '@preact/signals';

/** A newer build lies ready; it serves no page before it is asked to. */
export const newer = signal<ServiceWorker | undefined>(undefined);

export const takeNewer = (): void => newer.value?.postMessage('take over');

/** Loads the page anew when a newer build takes over, however early: the files of the older one are gone then. */
export function followNewer(): void {
  if (!('serviceWorker' in navigator)) return;
  const { serviceWorker } = navigator;
  if (serviceWorker.controller) serviceWorker.addEventListener('controllerchange', () => location.reload());
}

/** Keeps the page for use without a network. Where a browser cannot, everything else works as before. */
export async function keepPage(): Promise<void> {
  if (!('serviceWorker' in navigator)) return;
  const { serviceWorker } = navigator;
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
