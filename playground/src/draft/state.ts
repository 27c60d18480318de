import { computed, signal } from '@preact/signals';
import { type Draft, EMPTY } from './draft.ts';

interface Step {
  readonly draft: Draft;
  /** What the next change was, as the undo button names it. */
  readonly what: string;
}

/** So many steps are kept; a step holds what it changed and shares the rest. */
const MOST = 300;
/** Typing on in the same place makes one step. */
const PAUSE_MS = 900;

export const draft = signal<Draft>(EMPTY);
const past = signal<readonly Step[]>([]);
const future = signal<readonly Step[]>([]);
export const undoable = computed(() => past.value.at(-1)?.what);
export const redoable = computed(() => future.value.at(-1)?.what);

let last = { what: '', at: 0 };

/** Changes the draft; `what` names the change for undo. */
export function change(what: string, make: (draft: Draft) => Draft): void {
  const before = draft.value;
  const after = make(before);
  if (after === before) return;
  const now = performance.now();
  const goesOn = what === last.what && now - last.at < PAUSE_MS && past.value.length > 0;
  if (!goesOn) past.value = [...past.value.slice(-MOST), { draft: before, what }];
  last = { what, at: now };
  future.value = [];
  draft.value = after;
}

export function undo(): void {
  const step = past.value.at(-1);
  if (!step) return;
  past.value = past.value.slice(0, -1);
  future.value = [...future.value, { draft: draft.value, what: step.what }];
  last = { what: '', at: 0 };
  draft.value = step.draft;
}

export function redo(): void {
  const step = future.value.at(-1);
  if (!step) return;
  future.value = future.value.slice(0, -1);
  past.value = [...past.value, { draft: draft.value, what: step.what }];
  last = { what: '', at: 0 };
  draft.value = step.draft;
}

/** Takes a draft from the store or from another window, without a step of its own. */
export function take(from: Draft): void {
  last = { what: '', at: 0 };
  draft.value = from;
}
