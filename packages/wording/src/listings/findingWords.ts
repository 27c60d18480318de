import { operatorWords } from '../conditions/operators.ts';
import { namedWords } from '../conditions/sentence.ts';
import { counted, factTitle, listed, lowerFirst, type Words } from '../words.ts';

/** What the analysis found in the rules of one set. */
export interface FindingShown {
  readonly kind: string;
  readonly set: string;
  /** Ids of what it is about, as the analysis names them. */
  readonly of: readonly string[];
  readonly certainty: 'certain' | 'possible';
  readonly settled?: { readonly fact: string; readonly truth: boolean };
}

/** Ids of rules in the set that are checks. */
export type Checks = ReadonlySet<string>;

type Operator = Parameters<typeof operatorWords>[0];

const ruleName = (id: string, set: string, words: Words): string => {
  const title = words.rules.get(`${set}/${id}`);
  return title === undefined ? id : `"${title}" (${id})`;
};

/** Where a comparison stands: `rule/part`, a named condition, or a part of the set. */
function homeWords(home: string, set: string, words: Words): string {
  const [rule = '', part] = home.split('/');
  if (part !== undefined) return `In ${ruleName(rule, set, words)}, ${part}`;
  return rule === 'population' || rule === 'scope' ? `In the ${rule} of the set` : `In ${namedWords(rule)}`;
}

/** What was found, in one sentence; of what could not be settled it says that it may be so. */
export function findingWords(
  { kind, set, of, settled, certainty }: FindingShown,
  words: Words,
  checks: Checks,
): string {
  const [first = '', second = '', third = ''] = of;
  const named = (id: string): string => ruleName(id, set, words);
  const [one, other] = [named(first), named(second)];
  const others = listed(of.slice(1).map(named), 'or');
  const may = (is: string, maybe: string): string => (certainty === 'certain' ? is : maybe);
  const isCheck = checks.has(first);
  switch (kind) {
    case 'never-applies':
      return isCheck
        ? `${one} ${may('can', 'may')} never be missed: whoever it is about meets it.`
        : `${one} ${may('can', 'may')} never apply: no patient has everything it asks for.`;
    case 'always-applies':
      return isCheck
        ? `${one} ${may('can', 'may')} never be met by anybody whom it is about.`
        : `${one} ${may('applies', 'may apply')} to everybody whom it is about: what it asks singles nobody out.`;
    case 'concerns-no-item':
      return `${one} ${may('can', 'may')} concern no item, whatever its label says.`;
    case 'redundant':
      return `${one} adds nothing: whenever it applies, ${other} says the same.`;
    case 'never-stands':
      return others === ''
        ? `The conclusion of ${one} may never stand: one of higher precedence may always be reached as well.`
        : `The conclusion of ${one} never stands once everything that matters is known: whenever it is reached, so is one of higher precedence, by ${others}.`;
    case 'always-folded':
      return `${one} is never read: whenever it applies, ${others} folds it away.`;
    case 'lock-folded':
      return `${one} is locked, and ${may('is', 'may be')} folded away by ${other}, which is not.`;
    case 'contradictory-advice':
      return `${one} and ${other} ${may('speak', 'may speak')} to the same patient, and in their words one says to do what the other says not to do.`;
    case 'checks-contradict':
      return `Nobody can meet both ${one} and ${other}, and both ${may('are', 'may be')} about the same patient.`;
    case 'preference-contradicted':
      return `No item satisfies both ${one} and ${other}, and both ${may('apply', 'may apply')} to the same patient.`;
    case 'gap':
      return `There ${may('are', 'may be')} patients of whom everything that matters is known and about whom nothing is concluded.`;
    case 'gap-between':
      return `For a value of ${factTitle(second, words)} the default is concluded, while just below and just above it something else is.`;
    case 'nothing-left':
      return `There ${may('are', 'may be')} patients for whom every item of the ${first} list is ruled out.`;
    case 'limit-without-effect': {
      const fact = words.facts.get(second);
      const sign = operatorWords(third as Operator, fact?.type);
      const truth = settled?.truth ? 'true' : 'false';
      return `${homeWords(first, set, words)}: that ${factTitle(second, words)} ${sign} what is named there is ${truth} whatever its value is.`;
    }
    case 'choice-without-effect': {
      const title = lowerFirst(words.parameters.get(first)?.title ?? first);
      return `The local choice ${title} (${first}) changes nothing in this set while everything that matters is known: all its values come to the same.`;
    }
    default:
      return `${kind}: ${of.join(', ')}`;
  }
}

/** How a finding was settled where no patient can show it. */
export const proofWords = (facts: readonly string[], certainty: FindingShown['certainty']): string =>
  certainty === 'certain'
    ? `Every combination of what the rules tell apart in ${counted(facts.length, 'fact')} was looked at.`
    : `Neither shown nor ruled out: not every combination of ${counted(facts.length, 'fact')} could be looked at.`;

/** What finding nothing means, and what it does not. */
export const ANALYSIS_SAYS =
  'Nothing found is a statement about these kinds of mistakes only, and about patients of whom everything that matters is known.';

/** How much is left open, and how much of it an author's own changes brought about; before the end nothing is settled. */
export function findingsWords(open: number, own: number, isThrough: boolean): string {
  if (open === 0) return isThrough ? 'Nothing is left open' : 'Nothing found so far';
  const by = own === 0 ? '' : own === open ? ', by your changes' : `, ${own} of them by your changes`;
  return `${counted(open, 'finding')} left open${by}${isThrough ? '' : ' so far'}`;
}
