import type { CodeList, Fact } from '@dwellset/core';
import { asText, blocks, usableWidth, wrap } from '../layout.ts';
import { durationWords } from '../values/duration.ts';
import { numberWords, unitWords } from '../values/units.ts';

export interface FactsShown {
  /** Dictionary order. */
  readonly facts: readonly Fact[];
  readonly codes: Readonly<Record<string, CodeList>>;
  /** Group → heading; a group without one is headed by its name. */
  readonly groups?: ReadonlyMap<string, string>;
}

const TYPES: Readonly<Record<Fact['type'], string>> = {
  boolean: 'yes or no',
  number: 'number',
  code: 'one code',
  codes: 'any of several codes',
  date: 'date',
  'date-time': 'date and time, with offset',
  text: 'text',
  list: 'list of entries',
};

/** Type, unit, limits and how long a value may be relied on. */
export function kindWords(fact: Fact): string {
  const unit =
    fact.unit === undefined || fact.unit === '1' ? '' : ` in ${unitWords(fact.unit)} (unit ${fact.unit})`;
  const between = ([low, high]: readonly [number, number]) =>
    `${numberWords(low, fact)} to ${numberWords(high, fact)}`;
  return [
    TYPES[fact.type] + unit,
    ...timeWords(fact),
    ...(fact.monthMeans ? ['a month without a day means its last day'] : []),
    ...(fact.limits ? [`possible ${between(fact.limits)}`] : []),
    ...(fact.usual ? [`usual ${between(fact.usual)}, outside it to be confirmed`] : []),
    ...(fact.staleAfter ? [`relied on for ${durationWords(fact.staleAfter)}`] : []),
    ...(fact.from ? ['computed unless supplied'] : []),
    ...(fact.type === 'codes'
      ? [fact.unlisted === 'no' ? 'a code left out means no' : 'a code left out means not answered']
      : []),
  ].join(' · ');
}

/** When the entries of a list were: at one moment, over a stretch of time, or never. */
function timeWords({ kind, at = [], item = {} }: Fact): readonly string[] {
  const [first = '', last = ''] = at.map((field) => `"${item[field]?.title ?? field}"`);
  switch (kind) {
    case 'events':
      return [`each entry is of one moment, ${first}`];
    case 'measured':
      return [`each entry is of the time from ${first} to ${last}`];
    case 'things':
      return ['entries have no time'];
    default:
      return [];
  }
}

/** What an entry of a list may state, field by field, with the codes of a field that has some. */
const itemLines = ({ item = {} }: Fact, codes: FactsShown['codes'], width: number): string[] =>
  Object.entries(item).flatMap(([id, field]) => {
    const kind = kindWords({ ...field, id, question: field.title });
    return [
      ...wrap(`${id} – ${field.title}: ${kind}`, width, '       ', '         '),
      ...codeLines(field.codes, codes, width, '         '),
    ];
  });

const codeLines = (
  name: string | undefined,
  codes: FactsShown['codes'],
  width: number,
  indent: string,
): string[] =>
  Object.entries((name === undefined ? undefined : codes[name]) ?? {}).flatMap(([code, said]) =>
    wrap(`${code}: ${said}`, width, indent, `${indent}  `),
  );

function factLines(fact: Fact, codes: FactsShown['codes'], width: number): string[] {
  return [
    ...wrap(`${fact.id} – ${fact.title}`, width, '  ', '     '),
    ...wrap(fact.question, width, '     '),
    ...wrap(kindWords(fact), width, '     '),
    ...itemLines(fact, codes, width),
    ...codeLines(fact.codes, codes, width, '       '),
  ];
}

/** The fact dictionary, group by group: what may be supplied, in which unit, and what is asked. */
export function factsText(shown: FactsShown, width?: number): string {
  const columns = usableWidth(width);
  const groups = [...new Set(shown.facts.map(({ id }) => id.split('.')[0] ?? ''))];
  return asText(
    blocks(
      groups.flatMap((group) => [
        [shown.groups?.get(group) ?? group],
        ...shown.facts
          .filter(({ id }) => id.startsWith(`${group}.`))
          .map((fact) => factLines(fact, shown.codes, columns)),
      ]),
    ),
  );
}
