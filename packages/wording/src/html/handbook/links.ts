import { PLACE } from '@dwellset/core';
import { namedWords } from '../../conditions/sentence.ts';
import { codeWords, valueWords } from '../../values/value.ts';
import { factTitle } from '../../words.ts';
import { anchor, type Target } from '../anchor.ts';
import { html, joined, type Markup, type Piece } from '../markup.ts';
import type { Gathered, User } from './gathered.ts';

/** Links to what the handbook holds; where it holds no such thing the words stand alone. */
export interface Links {
  readonly to: (target: Target, names: readonly string[], said: Piece) => Markup;
}

function targets(all: Gathered): ReadonlySet<string> {
  return new Set([
    ...all.releases.flatMap((release) => [
      anchor('set', release.id),
      ...release.rules.map(({ id }) => anchor('rule', release.id, id)),
      ...Object.keys(release.conditions).map((name) => anchor('term', release.id, name)),
    ]),
    ...all.parameters.map(({ id }) => anchor('choice', id)),
    ...[...all.words.tables.keys()].map((id) => anchor('table', id)),
    ...all.evidence.map(({ id }) => anchor('evidence', id)),
    ...all.sources.map(({ id }) => anchor('source', id)),
    ...all.hazards.map(({ id }) => anchor('hazard', id)),
    ...all.facts.map(({ id }) => anchor('fact', id)),
    ...Object.keys(all.words.codes).map((name) => anchor('codes', name)),
  ]);
}

export function linksOf(all: Gathered): Links {
  const known = targets(all);
  return {
    to: (target, names, said) => {
      const id = anchor(target, ...names);
      return known.has(id) ? html`<a href="#${id}">${said}</a>` : html`${said}`;
    },
  };
}

/** Several links in one line; nothing where there are none. */
export const inLine = (links: readonly Piece[], between = ' · '): Piece =>
  links.length === 0 ? undefined : joined(links, between);

/** Rules, and sets as a whole, each by its title. */
export const userLinks = (users: readonly User[], links: Links): Piece[] =>
  users.map(({ set, rule }) =>
    rule
      ? links.to('rule', [set.id, rule.id], rule.title)
      : links.to('set', [set.id], `${set.title} (the set as a whole)`),
  );

/** A text of advice: a place for a local choice shows the value in force, one for a fact what will stand there. */
export function withPlaces(text: string, { words }: Gathered, links: Links): Piece[] {
  return text.split(PLACE).map((part, index) => {
    if (index % 2 === 0) return part;
    const parameter = words.parameters.get(part);
    if (!parameter) return links.to('fact', [part], `[${factTitle(part, words)}]`);
    const { value, codes } = parameter;
    const said =
      typeof value === 'number'
        ? String(value)
        : typeof value === 'string'
          ? codeWords(value, codes, words)
          : valueWords(value, parameter, words);
    return links.to('choice', [part], said);
  });
}

/** A sentence made from a condition, its named conditions linked to what they mean. */
export function withTerms(sentence: string, set: string, names: readonly string[], links: Links): Piece[] {
  const byWords = new Map(names.map((name) => [namedWords(name), name]));
  return sentence.split(/("[^"]*")(?= (?:holds|does not hold))/).map((part) => {
    const name = byWords.get(part);
    return name === undefined ? part : links.to('term', [set, name], part);
  });
}
