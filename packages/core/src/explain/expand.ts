import { isExact, type Reading } from '../facts/reading.ts';
import { placesOf } from '../facts/rounding.ts';
import { formatDay, formatLocal } from '../facts/time.ts';
import { TRUE } from '../facts/truth.ts';
import type { Constant } from '../release/condition.ts';
import type { Fact } from '../release/fact.ts';
import type { Release } from '../release/release.ts';

/** A place in a text: `{{fact}}` or `{{parameter}}`; facts and parameters share one space of names. */
export const PLACE = /\{\{([^{}]*)\}\}/g;

const NOT_RECORDED = 'not recorded';

/** Fills the places of a text. What is not known prints as "not recorded", bounds as "15 to 39". */
export function expand(
  text: string,
  release: Release,
  readings: ReadonlyMap<string, Reading>,
  zone: string,
): string {
  return text.replace(PLACE, (_, id: string) => {
    const parameter = release.parameters.find((entry) => entry.id === id);
    if (parameter) return constantText(parameter.value, release, parameter.codes);
    const reading = readings.get(id);
    return reading ? readingText(reading, release, zone) : NOT_RECORDED;
  });
}

const wordsFor = (code: string, release: Release, list: string | undefined): string =>
  (list === undefined ? undefined : release.codes[list]?.[code]) ?? code;

function constantText(value: Constant, release: Release, codes: string | undefined): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'number') return String(value);
  if (typeof value === 'string') return wordsFor(value, release, codes);
  return value.map((code) => wordsFor(code, release, codes)).join(', ');
}

/** Time that has passed is cut, not rounded: 5.96 h must not read as 6.0 h where a limit of 6 is not reached. */
function numberText(value: number, fact: Fact): string {
  const places = fact.decimals ?? (fact.step === undefined ? undefined : placesOf(fact.step));
  if (places === undefined) return String(value);
  const passed = fact.from !== undefined && 'elapsed' in fact.from && fact.step === undefined;
  const scale = 10 ** places;
  return passed ? (Math.floor(value * scale + 1e-9) / scale).toFixed(places) : value.toFixed(places);
}

function readingText(reading: Reading, release: Release, zone: string): string {
  const { fact, bounds, cause } = reading;
  if (cause !== undefined && cause !== 'within-bounds' && cause !== 'derived') return NOT_RECORDED;
  switch (bounds.kind) {
    case 'interval': {
      const [low, high] = [endText(fact, bounds.low, zone), endText(fact, bounds.high, zone)];
      const [openLow, openHigh] = [
        bounds.low <= (fact.limits?.[0] ?? -Infinity),
        bounds.high >= (fact.limits?.[1] ?? Infinity),
      ];
      if (isExact(bounds) || (low === high && !openLow && !openHigh)) return low;
      if (openLow && openHigh) return NOT_RECORDED;
      if (openHigh) return reading.comparator === '>' ? `more than ${low}` : `at least ${low}`;
      if (openLow) return reading.comparator === '<' ? `less than ${high}` : `at most ${high}`;
      return `${low} to ${high}`;
    }
    case 'possible': {
      if (!isExact(bounds)) return NOT_RECORDED;
      const code = bounds.possible[0] ?? '';
      return fact.type === 'boolean' ? booleanText(fact, code) : wordsFor(code, release, fact.codes);
    }
    case 'answers': {
      const yes = [...bounds.answers].flatMap(([code, answer]) =>
        answer === TRUE ? [wordsFor(code, release, fact.codes)] : [],
      );
      return yes.length > 0 ? yes.join(', ') : isExact(bounds) ? 'none' : NOT_RECORDED;
    }
    case 'text':
      return bounds.text ?? NOT_RECORDED;
    case 'list':
      return bounds.complete ? `${bounds.items.length} entries` : NOT_RECORDED;
  }
}

const booleanText = (fact: Fact, value: string): string =>
  value === 'true' ? (fact.phrases?.true ?? 'yes') : (fact.phrases?.false ?? 'no');

function endText(fact: Fact, value: number, zone: string): string {
  if (!Number.isFinite(value)) return '';
  if (fact.type === 'date-time') return formatLocal(value, zone);
  return fact.type === 'date' ? formatDay(value) : numberText(value, fact);
}
