import type { Constant } from '@dwellset/core';
import { upperFirst, valueWords } from '@dwellset/wording';
import { opened } from '../../bench/client.ts';
import { type Draft, split } from '../../draft/draft.ts';
import { releaseOf, words } from '../../words.ts';

export interface Described {
  readonly key: string;
  readonly kind: 'choice' | 'rule' | 'stock';
  readonly set: string;
  readonly title: string;
  readonly what: string;
  readonly reason: string;
  /** Address of the page where it was changed. */
  readonly page: readonly string[];
}

/** The set under which a choice is shown. */
const homeOf = (path: string): string =>
  (opened.value?.sets ?? []).find(({ release }) =>
    [...release.parameters, ...release.tables].some(({ id }) => id === path.split('/')[0]),
  )?.id ?? '';

const codesOf = (value: unknown): readonly string[] => (Array.isArray(value) ? (value as string[]) : []);

/** Longer lists are told by what comes and goes. */
function fromTo(before: unknown, after: unknown, said: (value: Constant) => string): string {
  if (Array.isArray(before) && Array.isArray(after)) {
    const gone = codesOf(before).filter((code) => !codesOf(after).includes(code));
    const come = codesOf(after).filter((code) => !codesOf(before).includes(code));
    return [come.length > 0 ? `with ${said(come)}` : '', gone.length > 0 ? `without ${said(gone)}` : '']
      .filter(Boolean)
      .join('; ');
  }
  const one = (value: unknown) =>
    value === null || value === undefined ? 'no entry' : said(value as Constant);
  return `${one(after)}, as published ${one(before)}`;
}

function choice(path: string, value: unknown): Pick<Described, 'title' | 'what'> {
  const [id = '', row = '', column = ''] = path.split('/');
  const parameter = opened.value?.dictionary.parameters.find((one) => one.id === id);
  if (parameter) {
    return {
      title: upperFirst(parameter.title),
      what: fromTo(parameter.default, value, (one) => valueWords(one, parameter, words.value)),
    };
  }
  const table = opened.value?.dictionary.tables.find((one) => one.id === id);
  const head = table?.columns[column];
  const before = table?.rows[row]?.[column]?.value ?? table?.otherwise?.[column] ?? null;
  const measured = {
    ...(head?.unit !== undefined && { unit: head.unit }),
    ...(head?.codes !== undefined && { codes: head.codes }),
  };
  const name = words.value.codes[table?.key ?? '']?.[row] ?? row;
  return {
    title: `${upperFirst(table?.title ?? id)}: ${name}, ${column}`,
    what: fromTo(before, value, (one) => valueWords(one, measured, words.value)),
  };
}

/** Every change of a draft in words, choices first. */
export function describe(draft: Draft): Described[] {
  const choices = Object.entries(draft.choices).map(([path, { value, reason }]): Described => {
    const set = homeOf(path);
    return { key: path, kind: 'choice', set, ...choice(path, value), reason, page: ['set', set, 'choices'] };
  });
  const rules = Object.entries(draft.rules).map(([key, edit]): Described => {
    const [set, id] = split(key);
    const published = opened.value?.sets
      .find((one) => one.id === set)
      ?.release.rules.find((rule) => rule.id === id);
    const now = releaseOf(set)?.rules.find((rule) => rule.id === id);
    const title = now?.title ?? published?.title ?? id;
    const done = (releaseOf(set)?.amendment?.changes ?? []).flatMap(({ item, change }) =>
      item === id || item.startsWith(`${id}/`) ? [change.replaceAll('-', ' ')] : [],
    );
    const what = edit.off ? 'switched off' : edit.added ? 'a rule of our own' : [...new Set(done)].join(', ');
    return {
      key,
      kind: 'rule',
      set,
      title,
      what: what === '' ? 'changed here' : what,
      reason: edit.reason,
      page: ['set', set, 'rule', id],
    };
  });
  const stock = Object.entries(draft.stock).map(([key, { options, reason }]): Described => {
    const [set, kind] = split(key);
    return {
      key,
      kind: 'stock',
      set,
      title: `Stock list: ${kind}`,
      what: `${options.length} options`,
      reason,
      page: ['set', set, 'stock', kind],
    };
  });
  return [...choices, ...rules, ...stock];
}
