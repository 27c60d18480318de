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

/** A text with its local choices put in: words, and between them what is read of facts. */
type Piece = string | { readonly fact: string };

/** Fills the places of the texts of one release; each text is taken apart once. */
export class Texts {
  private readonly release: Release;
  private readonly known = new Map<string, readonly Piece[]>();

  constructor(release: Release) {
    this.release = release;
  }

  /** What is not known prints as "not recorded", bounds as "15 to 39". */
  expand(text: string, readings: Pick<ReadonlyMap<string, Reading>, 'get'>, zone: string): string {
    const pieces = this.pieces(text);
    if (pieces === undefined) return text;
    let filled = '';
    for (const piece of pieces) {
      if (typeof piece === 'string') filled += piece;
      else {
        const reading = readings.get(piece.fact);
        filled += reading ? readingText(reading, this.release, zone) : NOT_RECORDED;
      }
    }
    return filled;
  }

  /** Whether a text says the same of every case. */
  isFixed(text: string): boolean {
    return this.pieces(text)?.every((piece) => typeof piece === 'string') ?? true;
  }

  /** Nothing where a text has no places. */
  private pieces(text: string): readonly Piece[] | undefined {
    if (!text.includes('{{')) return undefined;
    const known = this.known.get(text) ?? piecesOf(text, this.release);
    this.known.set(text, known);
    return known;
  }
}

/** `split` leaves the names of the places between the words around them. */
const piecesOf = (text: string, release: Release): Piece[] =>
  text.split(PLACE).map((piece, index): Piece => {
    if (index % 2 === 0) return piece;
    const parameter = release.parameters.find((entry) => entry.id === piece);
    return parameter ? constantText(parameter.value, release, parameter.codes) : { fact: piece };
  });

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
