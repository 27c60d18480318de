import { type Diagnostic, parseSource } from '@dwellset/authoring';
import type { Rule } from '@dwellset/core';
import { useEffect, useState } from 'preact/hooks';
import { ask, built, opened, tried } from '../../bench/client.ts';
import type { RuleEdit } from '../../draft/draft.ts';
import { editRule } from '../../draft/edit.ts';
import { refusalsIn } from '../../draft/refusals.ts';
import { readRule } from '../../draft/ruleText.ts';
import { draft } from '../../draft/state.ts';

/** The check waits until typing pauses. */
const WAIT_MS = 150;

export interface RuleAtHand {
  readonly key: string;
  readonly published: Rule | undefined;
  readonly publishedText: string | undefined;
  readonly edit: RuleEdit | undefined;
  readonly text: string;
  /** As the text reads now; where it cannot be read, as it read last. */
  readonly rule: Rule | undefined;
  readonly broken: boolean;
  readonly found: readonly Diagnostic[];
  setText(text: string, what?: string): void;
}

export function useRule(set: string, id: string): RuleAtHand {
  const key = `${set}/${id}`;
  const home = opened.value?.sets.find((one) => one.id === set);
  const published = home?.release.rules.find((rule) => rule.id === id);
  const publishedText = home?.texts[id];
  const edit = draft.value.rules[key];
  const text = edit?.text ?? publishedText ?? '';
  const read = readRule(text);
  const [last, setLast] = useState<Rule | undefined>(published);
  const [checked, setChecked] = useState<readonly Diagnostic[]>([]);
  useEffect(() => {
    if (read.rule) setLast(read.rule);
    let wanted = true;
    const wait = setTimeout(() => {
      ask('checkRule', { set, rule: id, text }).then(
        (found) => wanted && setChecked(found),
        () => wanted && setChecked([]),
      );
    }, WAIT_MS);
    return () => {
      wanted = false;
      clearTimeout(wait);
    };
  }, [set, id, text]);
  return {
    key,
    published,
    publishedText,
    edit,
    text,
    rule: read.rule ?? last,
    broken: read.broken,
    found: [...checked, ...refusedHere(set, id, text, checked)],
    setText: (after, what = `change of ${published?.title ?? id}`) => {
      if (!opened.value) return;
      editRule(opened.value, key, what, ({ off: _, ...known }) =>
        after === publishedText ? undefined : { ...known, text: after },
      );
    },
  };
}

/** What the amendment as a whole does not allow of this rule, placed in the rule's own text. */
function refusedHere(set: string, id: string, text: string, checked: readonly Diagnostic[]): Diagnostic[] {
  const refusals = refusalsIn(tried.value, built.value.refused).filter(
    (one) => one.set === set && one.item === id,
  );
  if (refusals.length === 0) return [];
  // A document that is unsound as a whole says no more than the check of the rule.
  if (checked.some(({ severity }) => severity === 'error')) return [];
  const source = parseSource(`${set}/${id}.rule.json`, text);
  return refusals.map(({ diagnostic, within }) => {
    const pointer = within ?? '';
    return { ...diagnostic, pointer, range: source.locate(pointer) };
  });
}
