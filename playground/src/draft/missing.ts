import type { PublishedSet } from '../bench/shapes.ts';
import { type Draft, split } from './draft.ts';
import { evidenceFor, POLICY } from './policy.ts';
import { needsPolicy } from './toAmendment.ts';

export interface Missing {
  readonly what: string;
  /** Where it can be stated. */
  readonly at:
    | { readonly kind: 'head' }
    | { readonly kind: 'choice'; readonly path: string }
    | { readonly kind: 'rule' | 'stock'; readonly key: string };
}

const blank = (text: string): boolean => text.trim() === '';

/** What an amendment has to state before it can be handed on. */
export function missingIn(draft: Draft, sets: readonly PublishedSet[]): Missing[] {
  const { head } = draft;
  const found: Missing[] = [];
  const at = { kind: 'head' } as const;
  if (blank(head.organisation)) found.push({ what: 'the name of your organisation', at });
  if (blank(head.approverRole)) found.push({ what: 'the role that approves', at });
  if (!/^\d{4}-\d{2}-\d{2}$/.test(head.date)) found.push({ what: 'the date', at });
  if (!/^\d+\.\d+\.\d+$/.test(head.version)) found.push({ what: 'a version such as 1.0.0', at });
  if (!/^[a-z0-9]+(-[a-z0-9]+)*$/.test(head.id))
    found.push({ what: 'a name of small letters and hyphens', at });
  for (const [path, choice] of Object.entries(draft.choices)) {
    const place = { kind: 'choice', path } as const;
    if (blank(choice.reason)) found.push({ what: `why ${path} is chosen`, at: place });
    const home = sets.find(({ release }) =>
      [...release.parameters, ...release.tables].some(({ id }) => id === path.split('/')[0]),
    );
    if (!home || !needsPolicy(path, choice, home.release)) continue;
    const cited = draft.evidence.filter(({ id }) => choice.evidence.includes(id));
    const own = cited.find(({ id }) => id === evidenceFor(path));
    const policy = draft.sources.find(({ id }) => id === POLICY);
    const unfinished =
      own && (blank(own.statement) || blank(own.from[0]?.locator ?? '') || blank(policy?.title ?? ''));
    if (cited.length === 0 || unfinished) found.push({ what: `the local policy behind ${path}`, at: place });
  }
  for (const [key, { reason }] of Object.entries(draft.rules)) {
    if (blank(reason)) found.push({ what: `why ${split(key)[1]} is changed`, at: { kind: 'rule', key } });
  }
  for (const [key, { reason }] of Object.entries(draft.stock)) {
    if (blank(reason))
      found.push({ what: `why the stock list ${split(key)[1]} is changed`, at: { kind: 'stock', key } });
  }
  return found;
}
