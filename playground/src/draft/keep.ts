import { effect, signal } from '@preact/signals';
import { get, set, update } from 'idb-keyval';
import { type Draft, EMPTY } from './draft.ts';
import { draft, take } from './state.ts';

interface Kept {
  readonly draft: Draft;
  /** Counts up with every save, in whichever window. */
  readonly revision: number;
}

const KEY = 'draft';
const ASIDE = 'draft-set-aside';
/** Long enough to gather the letters of a word, short enough to lose none of them. */
const WAIT_MS = 120;

/** What the author is told about the store; nothing while all is well. */
export const notice = signal<string | undefined>(undefined);
export const saved = signal<'saved' | 'saving' | 'not-kept'>('saved');
/** A draft that another window overtook. */
export const aside = signal<Draft | undefined>(undefined);

let revision = 0;
let known: Draft = EMPTY;
let waiting: ReturnType<typeof setTimeout> | undefined;
const windows = new BroadcastChannel('dwellset-draft');

async function save(): Promise<void> {
  const mine = draft.value;
  if (mine === known) return;
  const base = revision;
  let overtaken: Kept | undefined;
  try {
    await update<Kept>(KEY, (kept) => {
      overtaken = kept !== undefined && kept.revision !== base ? kept : undefined;
      return overtaken ?? { draft: mine, revision: base + 1 };
    });
  } catch {
    saved.value = 'not-kept';
    notice.value =
      'This browser does not keep the draft (its storage is full or switched off). Save it as a file before you close the page.';
    return;
  }
  if (overtaken) await setAside(mine, overtaken);
  else {
    known = mine;
    revision = base + 1;
    windows.postMessage(revision);
  }
  if (draft.value === known) saved.value = 'saved';
  else schedule();
}

/** Two windows changed the draft at once: the saved one stands, the other is kept beside it. */
async function setAside(mine: Draft, theirs: Kept): Promise<void> {
  await set(ASIDE, mine);
  aside.value = mine;
  known = theirs.draft;
  revision = theirs.revision;
  take(theirs.draft);
  notice.value =
    'Another window changed the draft at the same moment. Its version is shown here; yours is kept and can be taken back.';
}

function schedule(): void {
  saved.value = 'saving';
  if (waiting !== undefined) return;
  waiting = setTimeout(() => {
    waiting = undefined;
    void save();
  }, WAIT_MS);
}

async function follow(): Promise<void> {
  const kept = await get<Kept>(KEY);
  if (!kept || kept.revision <= revision) return;
  if (draft.value !== known) return;
  known = kept.draft;
  revision = kept.revision;
  take(kept.draft);
  notice.value = 'The draft was changed in another window; it is shown here as it stands there.';
}

/** Brings the kept draft back, then keeps every change. */
export async function keepDraft(): Promise<void> {
  try {
    const kept = await get<Kept>(KEY);
    aside.value = await get<Draft>(ASIDE);
    if (kept) {
      known = { ...EMPTY, ...kept.draft };
      revision = kept.revision;
      take(known);
    }
  } catch {
    saved.value = 'not-kept';
    notice.value = 'This browser keeps no draft for this page. Save it as a file before you close the page.';
  }
  windows.onmessage = () => void follow();
  addEventListener('pagehide', () => void save());
  effect(() => {
    if (draft.value !== known) schedule();
  });
}

export async function takeAside(): Promise<void> {
  const mine = aside.value;
  if (!mine) return;
  aside.value = undefined;
  notice.value = undefined;
  await set(ASIDE, undefined);
  take(mine);
}
