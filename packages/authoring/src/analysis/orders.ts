import type { Rule } from '@dwellset/core';

/** Something that a text tells people to do or not to do: stems of its verb and of what it is done to. */
interface Order {
  readonly verb: string;
  readonly objects: ReadonlySet<string>;
}

/** What the advice of a rule says to do, and what it says not to do. */
export interface Orders {
  readonly to: readonly Order[];
  readonly notTo: readonly Order[];
}

const SMALL_WORDS = new Set(
  'a an the it its this that them any yet now then today on off in of to for with and or at by is are be not no'.split(
    ' ',
  ),
);
const ENDINGS = /(?:isation|ation|ing|als?|ed|es|e|s)$/;

/** `remove`, `removing` and `removal` have one stem, as have `plan` and `planning`. */
const stemOf = (word: string): string => {
  const short =
    word.length > 4 ? word.replace(ENDINGS, (ending) => (ending === 'isation' ? 'is' : '')) : word;
  return short.replace(/([b-df-hj-np-tv-z])\1$/, '$1');
};

const wordsOf = (text: string): string[] => text.match(/[a-z][a-z-]*/g) ?? [];
const orderOf = (verb: string, rest: readonly string[]): Order => ({
  verb: stemOf(verb),
  objects: new Set(rest.filter((word) => !SMALL_WORDS.has(word)).map(stemOf)),
});

const NOT_TO = /\b(?:do not|don't|never)\s+(?:go on\s+)?(.+)$/;
/** `pull, cut or overfill it`: verbs first, and what they are done to behind the last one. */
const VERBS = /^((?:[a-z-]+, )*(?:[a-z-]+ (?:or|and) )?)([a-z-]+)(.*)$/;

function clauseOrders(clause: string): Orders {
  const stop = NOT_TO.exec(clause)?.[1];
  if (stop !== undefined) {
    const [, before = '', last = '', rest = ''] = VERBS.exec(stop) ?? [];
    const verbs = [...wordsOf(before).filter((word) => !SMALL_WORDS.has(word)), last];
    return { to: [], notTo: verbs.map((verb) => orderOf(verb, wordsOf(rest))) };
  }
  // Each of several things offered begins with what is to be done: `consider removal, or plan the change`.
  const offered = clause.split(/,|\bor\b|\bthen\b/).map((part) => wordsOf(part.replace(/\bconsider\b/, '')));
  const to = offered.flatMap((words) => {
    const at = words.findIndex((word) => !SMALL_WORDS.has(word));
    const verb = words[at];
    return verb === undefined || words.slice(0, at).includes('no')
      ? []
      : [orderOf(verb, words.slice(at + 1))];
  });
  return { to, notTo: [] };
}

/**
 * Reads the summary and the suggestions of a rule for what to do and what not to do. It reads words, not meaning: that
 * two rules order opposites is for a person to judge, that both speak to one patient is not.
 */
export function ordersOf({ advice }: Rule): Orders {
  const texts = [advice?.summary ?? '', ...(advice?.suggestions ?? []).map(({ label }) => label)];
  const clauses = texts.flatMap((text) =>
    text
      .replace(/\{\{[^}]*\}\}/g, ' ')
      .toLowerCase()
      .split(/[:;.?!]/),
  );
  const all = clauses.map((clause) => clauseOrders(clause.trim()));
  return { to: all.flatMap(({ to }) => to), notTo: all.flatMap(({ notTo }) => notTo) };
}

/** Whether one text says not to do what the other says to do, to the same thing or to whatever it is. */
export const areOpposed = (a: Orders, b: Orders): boolean => forbids(a, b) || forbids(b, a);

const forbids = ({ notTo }: Orders, { to }: Orders): boolean =>
  notTo.some(({ verb, objects }) =>
    to.some((order) => order.verb === verb && [...objects].every((one) => order.objects.has(one))),
  );
