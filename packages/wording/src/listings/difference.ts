import { outcomeWords } from '../assessment/proof.ts';
import { counted, factTitle, listed, upperFirst, type Words } from '../words.ts';

/** One thing that two evaluations of the same patient say otherwise. */
export interface DifferenceShown {
  readonly what: string;
  readonly as: string;
  readonly with: string;
}

const STATES: Readonly<Record<string, string>> = {
  open: 'open',
  'to-confirm': 'to confirm',
  held: 'held',
  'ruled-out': 'ruled out',
};

const stateWord = (state: string): string => STATES[state] ?? state;
const truthWord = (truth: string): string => (truth === 'true' ? 'yes' : truth === 'false' ? 'no' : truth);

/** What an expectation says of the item in the hand. */
const CHOSEN: Readonly<Record<string, string>> = {
  state: 'how it stands',
  excludedBy: 'ruled out by',
  preferredBy: 'preferred by',
  remarks: 'remarks of',
};

const OUTCOMES = ['applies', 'does-not-apply', 'undetermined', 'not-in-scope', 'switched-off'] as const;
type OutcomeWord = (typeof OUTCOMES)[number];
const CHECKS = ['met', 'not-met', 'not-recorded', 'undetermined', 'not-applicable', 'switched-off'] as const;
type CheckWord = (typeof CHECKS)[number];

function ruleWord(word: string): string {
  if ((OUTCOMES as readonly string[]).includes(word)) return outcomeWords({ outcome: word as OutcomeWord });
  return (CHECKS as readonly string[]).includes(word)
    ? outcomeWords({ outcome: 'applies', check: word as CheckWord })
    : word;
}

const itemOf = (kind: string, option: string): string =>
  option === 'chosen' ? `the ${kind} in the hand` : `${kind} ${option}`;

/** What a difference is about, and how its two sides are worded; the graver the earlier. */
function aboutWords(
  set: string,
  { what }: DifferenceShown,
  words: Words,
): [number, string, (word: string) => string] {
  const [about = '', first = '', second = ''] = what.split('.');
  const rules = (ids: string): string =>
    ids === ''
      ? 'nothing'
      : ids
          .split(', ')
          .map((id) => words.rules.get(`${set}/${id}`) ?? id)
          .join(', ');
  const facts = (ids: string): string =>
    ids === ''
      ? 'nothing'
      : ids
          .split(', ')
          .map((id) => factTitle(id, words))
          .join(', ');
  switch (about) {
    case 'rules':
      return [0, `"${words.rules.get(`${set}/${first}`) ?? first}"`, ruleWord];
    case 'options':
      return [second === 'chosen' ? 1 : 2, itemOf(first, second), stateWord];
    case 'excluded':
      return [3, `${itemOf(first, second)} is ruled out by`, rules];
    case 'remarks':
      return [4, `remarks on ${itemOf(first, second)}`, rules];
    case 'preferred':
      return [5, `${itemOf(first, second)} is preferred by`, rules];
    case 'conclusion':
      return [6, 'the conclusion', (id) => words.conclusions.get(`${set}/${id}`) ?? id];
    case 'compliance':
      return [7, 'all checks met', (word) => word];
    case 'advice':
    case 'speaks':
      return [8, 'what is said', rules];
    case 'summary':
      return [8, `the words of "${words.rules.get(`${set}/${first}`) ?? first}"`, (text) => `"${text}"`];
    case 'first':
      return [8, `first in the ${first} list`, (item) => item];
    case 'chosen':
      return [
        8,
        `the ${first} in the hand, ${CHOSEN[second] ?? second}`,
        second === 'state' ? stateWord : rules,
      ];
    case 'nothingLeft':
      return [8, `rules that leave nothing in the ${first} list`, rules];
    case 'provisional':
      return [8, `the order of the ${first} list may change`, truthWord];
    case 'ask':
      return [8, 'what is asked', facts];
    case 'deciding':
      return [8, `what decides "${words.rules.get(`${set}/${first}`) ?? first}"`, facts];
    case 'problems':
      return [
        8,
        `what is wrong with ${factTitle([first, second].join('.'), words)}`,
        (code) => code || 'nothing',
      ];
    default:
      return [9, `the order of the ${first} list`, (word) => word];
  }
}

/** One thing that an evaluation says. */
export interface SaidShown {
  readonly what: string;
  readonly is: string;
}

/** What is said of a patient, a line each; what rules items out is said of all of them at once. */
export function saidWords(set: string, says: readonly SaidShown[], words: Words): string[] {
  const excluded = says.filter(({ what }) => what.startsWith('excluded.'));
  const rules = [...new Set(excluded.flatMap(({ is }) => is.split(', ')))];
  const said = says.flatMap((one) => {
    if (excluded.includes(one)) return [];
    const [, name, word] = aboutWords(set, { what: one.what, as: one.is, with: one.is }, words);
    return [`${upperFirst(name)}: ${word(one.is)}.`];
  });
  if (excluded.length === 0) return said;
  const titles = rules.map((id) => `"${words.rules.get(`${set}/${id}`) ?? id}"`);
  return [...said, `Ruled out, ${counted(excluded.length, 'item')}, by ${listed(titles, 'and')}.`];
}

const MOST = 2;

/** The gravest differences in words: `"Title": applies; with the mistake: does not apply`. */
export function differenceWords(
  set: string,
  differences: readonly DifferenceShown[],
  words: Words,
  otherwise: string,
): string[] {
  const ranked = differences
    .map((one) => ({ one, about: aboutWords(set, one, words) }))
    .sort((a, b) => a.about[0] - b.about[0]);
  return ranked
    .slice(0, MOST)
    .map(({ one, about: [, name, said] }) =>
      upperFirst(`${name}: ${said(one.as)}; ${otherwise}: ${said(one.with)}`),
    );
}
