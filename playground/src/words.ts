import type { Release } from '@dwellset/core';
import { type Words, wordsOf } from '@dwellset/wording';
import { computed } from '@preact/signals';
import { built, opened } from './bench/client.ts';
import type { Side } from './bench/shapes.ts';
import { draft } from './draft/state.ts';

/** The release of a set as published, or as the author's changes make it. */
export function releaseOf(set: string, side: Side = 'ours'): Release | undefined {
  const ours = side === 'ours' ? built.value.releases[set] : undefined;
  return ours ?? opened.value?.sets.find(({ id }) => id === set)?.release;
}

/** Typing elsewhere leaves these as they are, and with them every word on the page. */
const ownFacts = computed(() => draft.value.facts);

/** Every word of the dictionary, whether a set uses it or not; local choices with the values in force. */
export const words = computed((): Words => {
  const sets = opened.value?.sets ?? [];
  const sofar = wordsOf(sets.map(({ id }) => releaseOf(id)!));
  const dictionary = opened.value?.dictionary;
  if (!dictionary) return sofar;
  const facts = new Map(sofar.facts);
  for (const fact of [...dictionary.facts, ...ownFacts.value]) {
    if (!facts.has(fact.id)) facts.set(fact.id, fact);
  }
  const parameters = new Map(dictionary.parameters.map((one) => [one.id, one] as const));
  for (const [id, one] of sofar.parameters) parameters.set(id, one);
  return { ...sofar, facts, parameters, codes: { ...dictionary.codes, ...sofar.codes } };
});

export const evidenceOf = (id: string) =>
  draft.value.evidence.find((one) => one.id === id) ??
  opened.value?.dictionary.evidence.find((one) => one.id === id);

export const sourceOf = (id: string) =>
  draft.value.sources.find((one) => one.id === id) ??
  opened.value?.dictionary.sources.find((one) => one.id === id);
