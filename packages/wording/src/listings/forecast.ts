import type { Forecast, Release } from '@dwellset/core';
import { outcomeWords } from '../assessment/proof.ts';
import { cautionLines } from '../cautions.ts';
import { asText, blocks, usableWidth, wrap } from '../layout.ts';
import { momentWords } from '../values/moment.ts';
import { counted, upperFirst, type Words, wordsOf } from '../words.ts';

export interface ForecastTextOptions {
  /** IANA name; the ward's clock. */
  readonly timeZone: string;
  readonly width?: number;
  /** They hold the titles of rules and conclusions. */
  readonly releases?: readonly Release[];
}

type Change = Forecast['changes'][number];
type Moved = Change['rules'][number];

/** `set@version/rule` → `set/rule`. */
const ruleName = (advice: string): string => advice.replace(/@[^/]*/, '');

/** `applies; before that: does not apply` */
function moveWords({ from, to, check }: Moved): string {
  const before = outcomeWords({ outcome: from, ...(check && { check: check.from }) });
  const after = outcomeWords({ outcome: to, ...(check && { check: check.to }) });
  return `${after}; before that: ${before}`;
}

/** One thing that changes, and what will be said then. */
export interface ForecastLine {
  readonly text: string;
  readonly says?: string;
}

/** What will be said comes first, rule by rule; the other rules stand together by what becomes of them. */
export function forecastLines(change: Change, forecast: Forecast, words: Words): ForecastLine[] {
  const title = (rule: string) => words.rules.get(rule) ?? rule;
  const moved = new Map(change.rules.map((rule) => [`${rule.set}/${rule.rule}`, rule]));
  const spoken = change.advice.new.map((id): ForecastLine => {
    const name = ruleName(id);
    const rule = moved.get(name);
    moved.delete(name);
    // Folding and answers can make an advice come or go while its rule stays as it is.
    const text = `${title(name)} – ${rule ? moveWords(rule) : 'speaks again'}`;
    return { text, says: forecast.upcoming[id] ?? '' };
  });
  const silenced = change.advice.gone
    .map(ruleName)
    .filter((name) => !change.rules.some(({ set, rule }) => `${set}/${rule}` === name));
  const quiet = [...moved].filter(([, { from, to }]) => from === 'not-in-scope' || to === 'not-in-scope');
  for (const [name] of quiet) moved.delete(name);
  const moves = [...new Set([...moved.values()].map(moveWords))];
  const conclusion = (set: string, id: string | undefined) =>
    id === undefined ? 'no conclusion' : `"${words.conclusions.get(`${set}/${id}`) ?? id}"`;
  const others = [
    ...moves.map((move) => {
      const names = [...moved].filter(([, rule]) => moveWords(rule) === move).map(([name]) => title(name));
      return `${upperFirst(move)} – ${names.join('; ')}`;
    }),
    ...(quiet.length === 0
      ? []
      : [
          `${counted(quiet.length, 'rule')} without a word to say ${quiet.length === 1 ? 'comes' : 'come'} into scope or out of it`,
        ]),
    ...silenced.map((name) => `${title(name)} – no longer speaks`),
    ...change.conclusions.map(
      ({ set, from, to }) =>
        `${words.sets.get(set) ?? set} – ${conclusion(set, to)}; before that: ${conclusion(set, from)}`,
    ),
  ];
  return [...spoken, ...others.map((text) => ({ text }))];
}

const changeLines = (change: Change, forecast: Forecast, words: Words, width: number): string[] =>
  forecastLines(change, forecast, words).flatMap(({ text, says }) => [
    ...wrap(text, width, '  ', '     '),
    ...(says === undefined ? [] : wrap(`says then: ${says}`, width, '     ')),
  ]);

/** What changes as time goes by, if nothing else is recorded meanwhile. */
export function forecastText(forecast: Forecast, options: ForecastTextOptions): string {
  const width = usableWidth(options.width);
  const words = wordsOf(options.releases ?? []);
  const clock = (instant: string) => momentWords(instant, options.timeZone);
  return asText(
    blocks([
      wrap(`Forecast from ${clock(forecast.from)} to ${clock(forecast.to)}, ${options.timeZone}`, width),
      wrap('Only time moves here: every entry is taken to stay as it is.', width),
      ...(forecast.changes.length === 0 ? [['Nothing changes in this time.']] : []),
      ...forecast.changes.map((change) => [clock(change.at), ...changeLines(change, forecast, words, width)]),
      cautionLines(forecast.caution, width),
    ]),
  );
}
