import type { AmendmentDocument, Change } from '@dwellset/authoring';
import type { Rule, StockItem } from '@dwellset/core';
import type { PublishedSet } from '../bench/shapes.ts';
import { type Draft, EMPTY, put, type RuleEdit } from './draft.ts';
import { edited, readRule, textOf } from './ruleText.ts';

const lines = (detail: string | readonly string[] | undefined): readonly string[] =>
  typeof detail === 'string' ? [detail] : (detail ?? []);

/** Reads an amendment back into what the author does to each choice and each rule. */
export function fromAmendment(document: AmendmentDocument, sets: readonly PublishedSet[]): Draft {
  const { id, version, organisation, approverRole, date } = document;
  let draft: Draft = {
    ...EMPTY,
    head: { id, version, organisation, approverRole, date },
    sources: (document.sources ?? []) as Draft['sources'],
    evidence: (document.evidence ?? []) as Draft['evidence'],
    facts: (document.facts ?? []) as unknown as Draft['facts'],
  };
  for (const { set, version, digest, changes } of document.amends) {
    draft = { ...draft, base: put(draft.base, set, { version, digest }) };
    const published = sets.find((one) => one.id === set);
    for (const change of changes) draft = withChange(draft, set, published, change);
  }
  return draft;
}

function withChange(draft: Draft, set: string, published: PublishedSet | undefined, change: Change): Draft {
  const { reason } = change;
  if ('set' in change) {
    const evidence = change.evidence ?? [];
    const made = Object.entries(change.set).map(
      ([path, value]) => [path, { value, reason, evidence }] as const,
    );
    return { ...draft, choices: { ...draft.choices, ...Object.fromEntries(made) } };
  }
  if ('stock' in change) {
    const { of, title, options } = change.stock;
    const edit = { title, options: options as unknown as readonly StockItem[], reason };
    return { ...draft, stock: put(draft.stock, `${set}/${of}`, edit) };
  }
  const edit = (id: string, one: RuleEdit): Draft => ({
    ...draft,
    rules: put(draft.rules, `${set}/${id}`, one),
  });
  if ('switchOff' in change) return edit(change.switchOff, { off: true, reason });
  if ('add' in change) {
    const added = change.after === undefined ? {} : { after: change.after };
    return edit(change.add.id, { text: textOf(change.add), added, reason });
  }
  if ('replace' in change) return edit(change.replace.id, { text: textOf(change.replace), reason });
  const id =
    'reword' in change ? change.reword.rule : 'addText' in change ? change.addText.rule : change.raise.rule;
  const text = draft.rules[`${set}/${id}`]?.text ?? published?.texts[id];
  if (text === undefined) return draft;
  return edit(id, { text: withWords(text, change), reason });
}

type Words = Extract<Change, { reword: unknown } | { addText: unknown } | { raise: unknown }>;

/** Words put into a rule's text one by one, so that the rest of it stays as published. */
function withWords(text: string, change: Words): string {
  const rule: Rule | undefined = readRule(text).rule;
  if ('raise' in change) return edited(text, ['advice', 'indicator'], change.raise.indicator);
  if ('addText' in change) {
    return edited(text, ['advice', 'detail'], [...lines(rule?.advice?.detail), ...change.addText.detail]);
  }
  const { title, summary, detail, because } = change.reword;
  let result = text;
  if (title !== undefined) result = edited(result, ['title'], title);
  if (summary !== undefined) result = edited(result, ['advice', 'summary'], summary);
  if (detail !== undefined) result = edited(result, ['advice', 'detail'], detail);
  if (because !== undefined) result = edited(result, ['because'], because);
  return result;
}
