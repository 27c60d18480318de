import { type Library, readLibrary, withDocument } from '@dwellset/authoring';
import { ANALYSIS_STEPS, analysing, type Finding } from '@dwellset/authoring/analysis';
import { z } from 'zod';
import type { Step } from '../background.ts';
import { Documents } from '../bench/documents.ts';
import { AMENDMENT, OURS } from '../bench/ours.ts';
import { pause } from '../bench/pause.ts';
import { nameOf } from './name.ts';
import type { FindingsNews, FindingsOrder, FoundHere } from './shapes.ts';

// The page forbids code made from text; zod would try it.
z.config({ jitless: true });

const post = (news: FindingsNews | Step): void => self.postMessage(news);
let opening: Promise<Library> | undefined;
let newest = 0;
/** What each set is found to have as published; that never changes here. */
const published = new Map<string, readonly Finding[]>();

async function analyse({
  generation,
  amendment,
  changed,
  sets,
}: Extract<FindingsOrder, { kind: 'analyse' }>) {
  newest = generation;
  const library = await opening;
  if (library === undefined) throw new Error('the policies are not open yet');
  const ours = amendment === undefined ? library : withDocument(library, AMENDMENT, amendment);
  let done = 0;
  const of = (changed.length + sets.filter((set) => !published.has(set)).length) * ANALYSIS_STEPS;
  /** Each kind of search in turn, with a pause to hear a newer order; that one ends it. */
  async function take(steps: ReturnType<typeof analysing>, tell: (found: readonly Finding[]) => void) {
    for (;;) {
      const step = steps.next();
      if (step.done) {
        const { set, refused } = step.value;
        // Of rules that do not run nothing is known, which is not that nothing is wrong with them.
        if (refused) throw new Error(`${set} does not run: ${refused.join('; ')}`);
        return;
      }
      tell(step.value);
      done += 1;
      post({ kind: 'progress', generation, done, of });
      await pause();
      if (newest !== generation) throw new Overtaken();
    }
  }
  const tell = (findings: readonly Finding[], isPublished: (finding: Finding) => boolean): void => {
    const found = findings.map((finding): FoundHere => ({ finding, published: isPublished(finding) }));
    if (found.length > 0) post({ kind: 'found', generation, found });
  };
  for (const set of sets) {
    const isChanged = changed.includes(set);
    const known = published.get(set);
    const base: Finding[] = [...(known ?? [])];
    if (known === undefined) {
      await take(analysing(library, set), (found) => {
        base.push(...found);
        if (!isChanged) tell(found, () => true);
      });
      published.set(set, base);
    } else if (!isChanged) tell(known, () => true);
    if (!isChanged) continue;
    const standing = new Set(base.map(standingOf));
    await take(analysing(ours, set, { hospital: OURS }), (found) => {
      tell(found, (finding) => standing.has(standingOf(finding)));
    });
  }
  post({ kind: 'done', generation });
}

/** What the published set accepts may rest on something else after an edit: it is open again, and by that edit. */
const standingOf = (finding: Finding): string =>
  `${nameOf(finding)}${finding.accepted === undefined ? '' : ' accepted'}`;

class Overtaken extends Error {}

self.onmessage = ({ data: order }: MessageEvent<FindingsOrder>) => {
  if (order.kind === 'open') opening = new Documents(order.addresses).all().then(readLibrary);
  else if (order.kind === 'cancel') newest = -1;
  else {
    analyse(order).catch((error: unknown) => {
      if (error instanceof Overtaken) return;
      const message = error instanceof Error ? error.message : String(error);
      post({ kind: 'failed', generation: order.generation, message });
    });
  }
};
