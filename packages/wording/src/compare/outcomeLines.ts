import type { Release } from '@dwellset/core';
import { wrap } from '../layout.ts';
import { momentWords } from '../values/moment.ts';
import { counted, upperFirst, type Words } from '../words.ts';
import { caseLines } from './caseWords.ts';
import type { ComparisonShown } from './shown.ts';
import { directionWords, type SideNames } from './sideNames.ts';

type Outcome = ComparisonShown['outcomes'][number];

/** What is needed to say one change of an outcome. */
export interface OutcomeContext {
  readonly all: ComparisonShown;
  readonly words: Words;
  readonly names: SideNames;
  readonly releases: readonly Release[];
}

/** A question more or less, where nothing that was said is lost. */
export const isQuestion = ({ direction, witness }: Outcome): boolean =>
  direction === 'newly-settled' ||
  (direction === 'newly-undetermined' && !/^(applies|met)/.test(witness.before));

export const share = (part: number, whole: number): string =>
  whole === 0 ? '' : ` (${((100 * part) / whole).toFixed(1)} %)`;

/** How many cases show it: of vignettes, and of the days of invented wards. */
function countWords({ vignettes, wardDays }: Outcome, { ran }: ComparisonShown): string {
  if (vignettes + wardDays === 0)
    return 'Seen in no vignette and on no ward day, only in a case made for it.';
  return `Seen in ${vignettes} of ${counted(ran.vignettes, 'vignette')} and on ${wardDays} of ${counted(ran.wardDays, 'ward day')}${share(wardDays, ran.wardDays)}.`;
}

const STATES: Readonly<Record<string, string>> = {
  applies: 'it speaks',
  undetermined: 'it cannot be decided',
  silent: 'it is silent',
  met: 'the check is met',
};

/** What a rule of a choice does to an item where it holds. */
function onItem(subject: string, { all, releases }: OutcomeContext): string {
  const rule = releases.find(({ id }) => id === all.set)?.rules.find(({ id }) => id === subject);
  if (rule?.excludes) return 'it is ruled out';
  return rule?.prefers ? 'it goes before others' : 'it is remarked on';
}

const NOT_ON_ITEM: Readonly<Record<string, string>> = {
  undetermined: 'it cannot be decided',
  silent: 'it is not',
};

/** What a side made of a case: of a rule whether it speaks, of a conclusion its title. */
function stateWords(state: string, { subject, witness }: Outcome, context: OutcomeContext): string {
  const { all, words } = context;
  if (witness.item !== undefined) return NOT_ON_ITEM[state] ?? onItem(subject, context);
  if (subject === 'conclusion') {
    const [id = '', open] = state.split('?');
    const title = words.conclusions.get(`${all.set}/${id}`) ?? id;
    return `"${title}"${open === undefined ? '' : ', provisional'}`;
  }
  const [word = '', indicator] = state.split(', ');
  return `${STATES[word] ?? word}${indicator === undefined ? '' : ` (${indicator})`}`;
}

const nameOf = (subject: string, { all, words }: OutcomeContext): string => {
  if (subject === 'conclusion') return 'The conclusion';
  const title = words.rules.get(`${all.set}/${subject}`);
  return title === undefined ? subject : `"${title}" (${subject})`;
};

const originWords = ({ from, name }: Outcome['witness']): string =>
  from === 'vignette'
    ? `From the vignette ${name}.`
    : from === 'ward'
      ? `From the ward ${name}.`
      : 'Made for this comparison.';

/** A rule that is about items of stock does not speak by itself: it holds of them or not. */
const became = ({ direction, witness }: Outcome, { names }: OutcomeContext): string => {
  const said = directionWords(direction, names);
  return witness.item === undefined
    ? said
    : said.replace(/\bspeaks\b/, 'applies').replace('speaking', 'applying');
};

/** An item of stock by its title. */
function itemWords(item: string | undefined, { all, releases }: OutcomeContext): string {
  if (item === undefined) return '';
  const [kind = '', id] = item.split('/');
  const known = releases.filter((one) => one.id === all.set).flatMap((one) => one.stock[kind] ?? []);
  const title = known.find((one) => one.id === id)?.title;
  return ` Of the ${kind} ${title === undefined ? item : `"${title}"`}:`;
}

/** A change of what is said, with the smallest case that shows it; the patient of the outcome above is not told again. */
export function outcomeLines(
  outcome: Outcome,
  above: Outcome | undefined,
  context: OutcomeContext,
  width: number,
): string[] {
  const { subject, witness } = outcome;
  const { names, all, words } = context;
  const { case: patient, item, before, after } = witness;
  const [was, is] = [before, after].map((state) => stateWords(state, outcome, context));
  const said = names.inTime
    ? `before, ${was}; after, ${is}`
    : `at ${names.before}, ${was}; at ${names.after}, ${is}`;
  const told = caseLines(patient, words);
  const same = above !== undefined && told.join() === caseLines(above.witness.case, words).join();
  return [
    ...wrap(`${nameOf(subject, context)} ${became(outcome, context)}.`, width, '  ', '     '),
    ...wrap(countWords(outcome, all), width, '     '),
    ...wrap(
      `Smallest case found, as of ${momentWords(patient.asOf, patient.timeZone)}.${itemWords(item, context)} ${item === undefined ? upperFirst(said) : said}. ${originWords(witness)}`,
      width,
      '     ',
    ),
    ...(same ? ['the same patient as above'] : told).flatMap((line) =>
      wrap(line, width, '       ', '         '),
    ),
  ];
}

/** A question more or less: what it is about and how often, in short. */
export function questionLines(outcome: Outcome, context: OutcomeContext, width: number): string[] {
  const { subject } = outcome;
  const said = `${nameOf(subject, context)} ${became(outcome, context)}.`;
  return wrap(`${said} ${countWords(outcome, context.all)}`, width, '  ', '     ');
}
