import type { Constant, Release, StockItem, Withdrawal } from '@dwellset/core';
import { aboutParts } from '../../assessment/sets.ts';
import { PARTS } from '../../conditions/reason.ts';
import { namedWords } from '../../conditions/sentence.ts';
import { valueWords } from '../../values/value.ts';
import { factTitle, upperFirst } from '../../words.ts';
import { anchor } from '../anchor.ts';
import { html, type Piece } from '../markup.ts';
import { lines, texts } from '../page.ts';
import { between, type Chapter, chapter, entry } from './entry.ts';
import type { Gathered } from './gathered.ts';
import { inLine, type Links } from './links.ts';
import { ruleEntry, sentence } from './rule.ts';

const HEADING = Object.fromEntries(PARTS);

/** In the place of a state: the name of the set stands beside it. */
const withdrawnSince = ({ date, reason, replacement }: Withdrawal): string =>
  `withdrawn on ${date}: ${reason.replace(/\.$/, '')}${replacement === undefined ? '' : `; use ${replacement} instead`}`;

/** Draft or not, and whether this very text has been taken on. */
export function standingWords(
  set: Release,
  { adoption, digests, withdrawals }: Pick<Gathered, 'adoption' | 'digests' | 'withdrawals'>,
): string {
  if (set.withdrawn) return `withdrawn: ${set.withdrawn.reason}`;
  const taken = withdrawals?.find(({ id, version }) => id === set.id && version === set.version);
  if (taken) return withdrawnSince(taken);
  const entry = adoption?.releases.find(({ id, version }) => id === set.id && version === set.version);
  if (entry === undefined)
    return adoption ? `${set.status}, not adopted by ${adoption.organisation}` : set.status;
  return entry.digest === digests.get(set.id)
    ? `${set.status}, adopted by ${adoption?.organisation}`
    : `${set.status}, another text than the one adopted by ${adoption?.organisation}`;
}

/** What the label of an item states, written as in a case. */
function valueShown(fact: string, stated: unknown, { words }: Gathered): string {
  const { value, unit } =
    typeof stated === 'object' && stated !== null && 'value' in stated
      ? (stated as { value: unknown; unit?: string })
      : { value: stated };
  const described = { ...words.facts.get(fact), ...(unit !== undefined && { unit }) };
  const plain = ['boolean', 'number', 'string'].includes(typeof value) || Array.isArray(value);
  return `${factTitle(fact, words)} ${plain ? valueWords(value as Constant, described, words) : JSON.stringify(value)}`;
}

const stockItem = ({ title, facts }: StockItem, all: Gathered): Piece =>
  html`${title} <span class="id">${Object.entries(facts)
    .map(([fact, value]) => valueShown(fact, value, all))
    .join(', ')}</span>`;

const stock = (set: Release, all: Gathered): Piece => {
  const lists = Object.entries(set.stock);
  return (
    lists.length > 0 && [
      between('What is in stock'),
      lists.map(([kind, items]) =>
        entry(anchor('stock', set.id, kind), kind, texts(items.map((item) => stockItem(item, all)))),
      ),
    ]
  );
};

const terms = (set: Release, all: Gathered, links: Links): Piece => {
  const named = Object.entries(set.conditions);
  return (
    named.length > 0 && [
      between('What is meant by'),
      named.map(([name, condition]) =>
        entry(
          anchor('term', set.id, name),
          namedWords(name),
          html`<p>${sentence(condition, set, all, links)}</p>`,
        ),
      ),
    ]
  );
};

/** One rule set as a chapter: what it is for and for whom, then its rules in their order. */
export function setChapter(set: Release, all: Gathered, links: Links): Chapter {
  const { population, scope, effectivePeriod, reads = [] } = set;
  const conclusions = [...(set.conclusions ?? []), ...(set.defaultConclusion ? [set.defaultConclusion] : [])];
  const about = aboutParts({ ...set, digest: all.digests.get(set.id) ?? '' });
  const period =
    effectivePeriod && [effectivePeriod.start ?? '', effectivePeriod.end ?? ''].join(' to ').trim();
  const opening = lines([
    ...about
      .filter(({ label }) => label !== 'Changed')
      .map(({ label, texts: said }): [Piece, Piece] => [label, texts(said)]),
    ['State', upperFirst(standingWords(set, all))],
    ['In force', period],
    [
      HEADING.population,
      population && [sentence(population.when, set, all, links), ' ', population.otherwise],
    ],
    [HEADING.gate, sentence(scope, set, all, links)],
    [
      'Comes to',
      conclusions.length > 0 &&
        texts(
          conclusions.map(({ title }) => title),
          true,
        ),
    ],
    [
      'Reads what others conclude',
      inLine(
        reads.map(({ id, version }) => links.to('set', [id], `${all.words.sets.get(id) ?? id} ${version}`)),
      ),
    ],
  ]);
  const entries = [
    between('Rules'),
    set.rules.map((rule) => ruleEntry(rule, set, all, links)),
    terms(set, all, links),
    stock(set, all),
  ];
  return chapter(anchor('set', set.id), set.title, `${set.id} ${set.version}`, opening, entries);
}
