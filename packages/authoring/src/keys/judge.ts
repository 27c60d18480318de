import type { KeyCase } from '../documents/key.ts';
import { bearingsOf, type Outcome, restingOn } from './bearing.ts';
import type { Judged, Undecided, Verdict } from './shape.ts';

type Answer = KeyCase['answer'];
type OfSet = 'conclusion' | 'advice' | 'check' | 'chosen';
type Found = Omit<Judged, 'part' | 'asks' | 'expected'> & { readonly asks?: readonly string[] };

/** The parts of an answer that a rule set has to give. */
export const OF_SETS: readonly OfSet[] = ['conclusion', 'advice', 'check', 'chosen'];

export function judge(part: OfSet, answer: Answer, outcome: Outcome): Judged {
  const { expected, found } = JUDGES[part](answer, outcome);
  return { asks: [], ...found, part, expected };
}

const JUDGES: Readonly<
  Record<OfSet, (answer: Answer, outcome: Outcome) => { expected: unknown; found: Found }>
> = {
  conclusion({ conclusion }, outcome) {
    const expected = conclusion?.is ?? [];
    return { expected, found: concluded(expected, outcome) };
  },
  advice({ advice }, outcome) {
    const rules = restingOn(outcome.release, advice?.restsOn ?? []);
    return { expected: advice?.speaks, found: spoken(advice?.speaks ?? true, rules, outcome) };
  },
  check({ check }, outcome) {
    const rules = restingOn(outcome.release, check?.restsOn ?? []);
    return { expected: check?.is, found: checked(check?.is ?? 'met', rules, outcome) };
  },
  chosen({ chosen }, outcome) {
    return {
      expected: chosen?.ruledOut,
      found: ruledOut(chosen?.of ?? '', chosen?.ruledOut ?? true, outcome),
    };
  },
};

const verdictOf = (agrees: boolean): Verdict => (agrees ? 'agreed' : 'disagreed');

const undecided = (why: Undecided, received: unknown = null): Found => ({
  verdict: 'not-decidable',
  received,
  by: [],
  undecided: why,
});

function concluded(expected: readonly string[], { set, release, asks }: Outcome): Found {
  const { id, possible = [] } = set.conclusion ?? {};
  if (id === undefined) return undecided('outside');
  const fitting = possible.filter((one) => expected.includes(one));
  const reached = set.rules.filter(({ outcome, concludes }) => outcome === 'applies' && concludes === id);
  const by = bearingsOf(
    release,
    reached.map((rule) => rule.id),
  );
  if (fitting.length === possible.length) return { verdict: 'agreed', received: id, by };
  if (fitting.length === 0) return { verdict: 'disagreed', received: id, by };
  return { ...undecided('open', possible), by, asks };
}

function spoken(speaks: boolean, rules: readonly string[], { set, release, asks }: Outcome): Found {
  if (rules.length === 0) return undecided('no-rule');
  const own = set.rules.filter(({ id }) => rules.includes(id));
  const loud = own.filter(({ outcome }) => outcome === 'applies').map(({ id }) => id);
  const open = own.filter(({ outcome }) => outcome === 'undetermined').map(({ id }) => id);
  if (loud.length === 0 && open.length > 0) {
    return { ...undecided('open'), by: bearingsOf(release, open), asks };
  }
  return {
    verdict: verdictOf(loud.length > 0 === speaks),
    received: loud.length > 0,
    by: bearingsOf(release, loud.length > 0 ? loud : rules),
  };
}

function checked(expected: string, rules: readonly string[], { set, release, asks }: Outcome): Found {
  if (rules.length === 0) return undecided('no-rule');
  const own = set.rules.filter(({ id, check }) => rules.includes(id) && check !== 'not-applicable');
  if (own.length === 0) return undecided('outside');
  const failed = own.filter(({ check }) => check === 'not-met');
  const open = own.filter(({ check }) => check !== 'not-met' && check !== 'met');
  const by = bearingsOf(
    release,
    (failed.length > 0 ? failed : open.length > 0 ? open : own).map(({ id }) => id),
  );
  if (failed.length === 0 && open.length > 0) return { ...undecided('open'), by, asks };
  const received = failed.length > 0 ? 'not-met' : 'met';
  return { verdict: verdictOf(received === expected), received, by };
}

function ruledOut(kind: string, expected: boolean, { set, release, asks }: Outcome): Found {
  const item = set.choices?.find(({ of }) => of === kind)?.chosen;
  // Outside its population a set reports an item only where a stop rules it out.
  if (item === undefined) return set.population === 'in' ? undecided('no-rule') : undecided('outside');
  if (item.state === 'held' || item.state === 'to-confirm') {
    return { ...undecided('open', item.state), by: bearingsOf(release, item.undecided), asks };
  }
  const received = item.state === 'ruled-out';
  return { verdict: verdictOf(received === expected), received, by: bearingsOf(release, item.excludedBy) };
}
