import { digestOf, type Release, type Rule } from '@dwellset/core';
import { closureOf } from '../compare/closure.ts';
import type { Draft } from './draft.ts';

/** Keys of a rule that a finding never rests on. */
const ASIDE = new Set(['title', 'because', 'evidence', 'hazards', 'note', 'local']);

/**
 * The digest of everything that a finding rests on: the rules it names, or all of them where it is about the set, and
 * whatever these read. An acceptance holds for this digest only, so that a change asks for a new one.
 */
export function basisOf(release: Release, { kind, of, settled }: Draft): string {
  const named = new Set(of.map((name) => name.split('/')[0]));
  const own = release.rules.filter(({ id }) => named.has(id));
  const rules = own.length > 0 ? own : release.rules;
  const { population, scope, conclusions, defaultConclusion, shape } = release;
  const items = itemsBehind(release, rules);
  // Of another set all matters whose conclusion is read, and nothing of one whose is not.
  const reads = release.facts.some(
    ({ id, from }) => from !== undefined && 'conclusion' in from && `fact ${id}` in items,
  );
  return digestOf(
    plain({
      kind,
      of,
      settled,
      rules: rules.map(logicOf),
      items,
      set: {
        shape,
        population: population?.when,
        scope,
        conclusions,
        defaultConclusion,
        reads: reads ? release.reads : undefined,
      },
    }),
  );
}

const logicOf = (rule: Rule): object =>
  Object.fromEntries(Object.entries(rule).filter(([key]) => !ASIDE.has(key)));

/** What the rules read, each with its content, in an order that does not hang on how it was found. */
function itemsBehind(release: Release, rules: readonly Rule[]): object {
  const names = new Set(rules.flatMap((rule) => [...closureOf(release, rule).items]));
  const contents = new Map<string, unknown>([
    ...Object.entries(release.conditions).map(([id, one]) => [`condition ${id}`, one] as const),
    ...release.parameters.map(({ id, value }) => [`local choice ${id}`, value] as const),
    ...release.tables.map(({ id, rows, otherwise }) => [`table ${id}`, { rows, otherwise }] as const),
    ...Object.entries(release.stock).flatMap(([of, options]) =>
      options.map(({ id, facts }) => [`stock ${of}/${id}`, facts] as const),
    ),
    ...release.facts.map(
      ({ id, type, unit, step, limits, codes, notBefore, item, from }) =>
        [`fact ${id}`, { type, unit, step, limits, codes, notBefore, item, from }] as const,
    ),
    ...Object.entries(release.codes).map(([id, list]) => [`code list ${id}`, Object.keys(list)] as const),
  ]);
  return Object.fromEntries(
    [...names].filter((name) => contents.has(name)).map((name) => [name, contents.get(name)]),
  );
}

/** Canonical JSON knows no keys without a value. */
const plain = (value: object): unknown => JSON.parse(JSON.stringify(value));
