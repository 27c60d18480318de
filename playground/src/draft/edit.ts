import type { CellValue, Constant, Evidence, Source } from '@dwellset/core';
import type { Opened } from '../bench/shapes.ts';
import { type ChoiceEdit, type Draft, put, type RuleEdit, type StockEdit, split } from './draft.ts';
import { evidenceFor, POLICY } from './policy.ts';
import { change } from './state.ts';
import { toAmendment } from './toAmendment.ts';

/** A change rests on the published text it was made on; what is no longer changed rests on nothing. */
function pinned(draft: Draft, { sets }: Opened): Draft {
  const amended = new Set(toAmendment(draft, sets, { trying: true })?.amends.map(({ set }) => set));
  for (const key of [...Object.keys(draft.rules), ...Object.keys(draft.stock)]) amended.add(split(key)[0]);
  const base = Object.fromEntries(
    sets.flatMap(({ id, release, digest }) =>
      amended.has(id) ? [[id, draft.base[id] ?? { version: release.version, digest }] as const] : [],
    ),
  );
  return { ...draft, base };
}

const make = (what: string, opened: Opened, edit: (draft: Draft) => Draft): void =>
  change(what, (draft) => {
    const after = edit(draft);
    return after === draft ? draft : pinned(after, opened);
  });

/** Sets a local choice; the published value takes the change back. */
export function setChoice(
  opened: Opened,
  path: string,
  title: string,
  value: Constant | CellValue,
  published: Constant | CellValue,
): void {
  make(`set ${title}`, opened, (draft) => {
    const isPublished = JSON.stringify(value) === JSON.stringify(published);
    if (isPublished) return withoutChoice(draft, path);
    const known: ChoiceEdit = draft.choices[path] ?? { value, reason: '', evidence: [] };
    return { ...draft, choices: put(draft.choices, path, { ...known, value }) };
  });
}

function withoutChoice(draft: Draft, path: string): Draft {
  const own = evidenceFor(path);
  const evidence = draft.evidence.filter(({ id }) => id !== own);
  const cited = evidence.some(({ from }) => from.some(({ source }) => source === POLICY));
  const sources = cited ? draft.sources : draft.sources.filter(({ id }) => id !== POLICY);
  return { ...draft, choices: put(draft.choices, path, undefined), evidence, sources };
}

export const takeBackChoice = (opened: Opened, path: string, title: string): void =>
  make(`take back ${title}`, opened, (draft) => withoutChoice(draft, path));

export const setChoiceReason = (opened: Opened, path: string, title: string, reason: string): void =>
  make(`reason for ${title}`, opened, (draft) => {
    const known = draft.choices[path];
    return known ? { ...draft, choices: put(draft.choices, path, { ...known, reason }) } : draft;
  });

/** What a local policy says about one choice. */
export interface PolicyCited {
  readonly title: string;
  readonly section: string;
  readonly statement: string;
  /** The author has read the passage; otherwise it is from memory and says so. */
  readonly read: boolean;
}

export function policyCited(draft: Draft, path: string): PolicyCited {
  const own = draft.evidence.find(({ id }) => id === evidenceFor(path));
  const policy = draft.sources.find(({ id }) => id === (own?.from[0]?.source ?? POLICY));
  return {
    title: policy?.title ?? '',
    section: own?.from[0]?.locator ?? '',
    statement: own?.statement ?? '',
    read: own?.from[0]?.status === 'read',
  };
}

export function citePolicy(opened: Opened, path: string, what: string, cited: PolicyCited): void {
  make(`policy behind ${what}`, opened, (draft) => {
    const known = draft.choices[path];
    if (!known) return draft;
    const id = evidenceFor(path);
    const policy: Source = {
      ...(draft.sources.find((one) => one.id === POLICY) ?? { id: POLICY, kind: 'local-policy' as const }),
      body: draft.head.organisation,
      title: cited.title,
    };
    const entry: Evidence = {
      id,
      statement: cited.statement,
      from: [
        { source: POLICY, locator: cited.section, grade: 'ungraded', status: cited.read ? 'read' : 'memory' },
      ],
    };
    return {
      ...draft,
      sources: [...draft.sources.filter((one) => one.id !== POLICY), policy],
      evidence: [...draft.evidence.filter((one) => one.id !== id), entry],
      choices: put(draft.choices, path, { ...known, evidence: [...new Set([...known.evidence, id])] }),
    };
  });
}

/** Changes one rule; `undefined` takes the change back. */
export function editRule(
  opened: Opened,
  key: string,
  what: string,
  edit: (known: RuleEdit) => RuleEdit | undefined,
): void {
  make(what, opened, (draft) => {
    const known = draft.rules[key] ?? { reason: '' };
    const after = edit(known);
    return { ...draft, rules: put(draft.rules, key, after) };
  });
}

export const editStock = (opened: Opened, key: string, what: string, edit: StockEdit | undefined): void =>
  make(what, opened, (draft) => ({ ...draft, stock: put(draft.stock, key, edit) }));

export const editDraft = (opened: Opened, what: string, edit: (draft: Draft) => Draft): void =>
  make(what, opened, edit);
