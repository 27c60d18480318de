import type { AmendmentDocument, Change } from '@dwellset/authoring';
import type { Evidence, Release, Source } from '@dwellset/core';
import type { PublishedSet } from '../bench/shapes.ts';
import { type ChoiceEdit, type Draft, split } from './draft.ts';
import { ruleChanges } from './ruleChange.ts';

/** Stand in for what is still to be stated, so that a change can be tried before its reason is written. */
const TO_BE_STATED = 'to be stated';
const POLICY = 'local-policy-to-be-stated';
const SOURCE: Source = {
  id: POLICY,
  kind: 'local-policy',
  body: TO_BE_STATED,
  title: TO_BE_STATED,
};
const EVIDENCE: Evidence = {
  id: POLICY,
  statement: TO_BE_STATED,
  from: [{ source: POLICY, locator: TO_BE_STATED, grade: 'ungraded', status: 'memory' }],
};

const usesChoice = (release: Release, path: string): boolean => {
  const [id] = path.split('/');
  return (
    release.parameters.some((parameter) => parameter.id === id) ||
    release.tables.some((table) => table.id === id)
  );
};

export interface AmendmentOptions {
  /** Fill in what is still to be stated: for trying out, never for handing on. */
  readonly trying?: boolean;
}

/** The draft as the document that a hospital keeps; nothing where nothing is changed. */
export function toAmendment(
  draft: Draft,
  sets: readonly PublishedSet[],
  { trying = false }: AmendmentOptions = {},
): AmendmentDocument | undefined {
  const changes = new Map<string, Change[]>(sets.map(({ id }) => [id, []]));
  let unsourced = false;
  const filled = (change: Change): Change =>
    trying && change.reason.trim() === '' ? { ...change, reason: TO_BE_STATED } : change;
  for (const [path, choice] of Object.entries(draft.choices)) {
    const set = sets.find(({ release }) => usesChoice(release, path));
    if (!set) continue;
    const bare = trying && choice.evidence.length === 0 && needsPolicy(path, choice, set.release);
    unsourced ||= bare;
    changes.get(set.id)!.push(filled(choiceChange(path, bare ? { ...choice, evidence: [POLICY] } : choice)));
  }
  for (const [key, edit] of Object.entries(draft.rules)) {
    const [set, id] = split(key);
    const published = sets.find((one) => one.id === set);
    const base = published?.release.rules.find((rule) => rule.id === id);
    for (const change of ruleChanges(id, base, edit)) changes.get(set)?.push(filled(change));
  }
  for (const [key, { title, options, reason }] of Object.entries(draft.stock)) {
    const [set, kind] = split(key);
    changes.get(set)?.push(filled({ stock: { of: kind, title, options }, reason } as unknown as Change));
  }
  const amends = sets.flatMap((set) => {
    const own = changes.get(set.id) ?? [];
    const base = draft.base[set.id] ?? { version: set.release.version, digest: set.digest };
    return own.length === 0 ? [] : [{ set: set.id, ...base, changes: own }];
  });
  if (amends.length === 0) return undefined;
  const { id, version, organisation, approverRole, date } = draft.head;
  const stated = (text: string): string => (trying && text.trim() === '' ? TO_BE_STATED : text);
  const known = (text: string, shape: RegExp, instead: string): string =>
    trying && !shape.test(text) ? instead : text;
  const sources = [
    ...draft.sources.map((source) => ({ ...source, body: stated(source.body), title: stated(source.title) })),
    ...(unsourced ? [SOURCE] : []),
  ];
  const evidence = [
    ...draft.evidence.map((entry) => ({
      ...entry,
      statement: stated(entry.statement),
      from: entry.from.map((item) => ({ ...item, locator: stated(item.locator) })),
    })),
    ...(unsourced ? [EVIDENCE] : []),
  ];
  return {
    $schema: 'urn:dwellset:amendment:1',
    id: known(id, /^[a-z0-9]+(-[a-z0-9]+)*$/, 'our-changes'),
    version: known(version, /^(0|[1-9]\d*)(\.(0|[1-9]\d*)){2}$/, '1.0.0'),
    organisation: stated(organisation),
    approverRole: stated(approverRole),
    date: known(date, /^\d{4}-\d{2}-\d{2}$/, '2000-01-01'),
    ...(sources.length > 0 && { sources: sources as AmendmentDocument['sources'] }),
    ...(evidence.length > 0 && { evidence: evidence as AmendmentDocument['evidence'] }),
    ...(draft.facts.length > 0 && { facts: draft.facts as unknown as AmendmentDocument['facts'] }),
    amends,
  } as AmendmentDocument;
}

const choiceChange = (path: string, { value, evidence, reason }: ChoiceEdit): Change =>
  ({ set: { [path]: value }, ...(evidence.length > 0 && { evidence }), reason }) as Change;

/** Whether a value stands in none of the published positions, so that only a local policy can carry it. */
export function needsPolicy(path: string, { value }: Pick<ChoiceEdit, 'value'>, release: Release): boolean {
  const [id, row, column] = path.split('/');
  const parameter = release.parameters.find((one) => one.id === id);
  const cell = release.tables.find((one) => one.id === id)?.rows[row ?? '']?.[column ?? ''];
  const found = parameter ?? cell;
  if (!found) return false;
  const said = JSON.stringify(value);
  return (
    said !== JSON.stringify(found.value) &&
    !(found.positions ?? []).some((position) => JSON.stringify(position.value) === said)
  );
}
