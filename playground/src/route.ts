import { computed, signal } from '@preact/signals';

/** What the page shows: `#/set/removal/rule/scan-now?for=scan-now/no-void` → parts and options. */
export interface Route {
  readonly parts: readonly string[];
  readonly options: URLSearchParams;
}

function read(): Route {
  const [path = '', query = ''] = location.hash.replace(/^#\/?/, '').split('?');
  const parts = path
    .split('/')
    .filter((part) => part !== '')
    .map(safe);
  return { parts, options: new URLSearchParams(query) };
}

/** An address may hold anything. */
function safe(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

export const route = signal<Route>(read());
addEventListener('hashchange', () => {
  route.value = read();
});

/** The set looked at last; choices and patients are shown beside it. */
const lastSet = signal('removal');
export const setInView = computed(() => {
  const [first, set] = route.value.parts;
  return first === 'set' && set !== undefined ? set : lastSet.value;
});
export const rememberSet = (set: string): void => {
  lastSet.value = set;
};

export function address(parts: readonly string[], options: Readonly<Record<string, string>> = {}): string {
  const query = new URLSearchParams(options).toString();
  return `#/${parts.map(encodeURIComponent).join('/')}${query === '' ? '' : `?${query}`}`;
}

export const go = (parts: readonly string[], options: Readonly<Record<string, string>> = {}): void => {
  location.hash = address(parts, options);
};
