import type { FindingKind } from '@dwellset/authoring/analysis';
import type { Json } from '../invented/documents.ts';
import {
  all,
  any,
  bag,
  byDefault,
  checklist,
  count,
  decision,
  fever,
  holds,
  hours,
  type Invented,
  latex,
  not,
  pain,
  says,
  size,
  washed,
} from './invented.ts';

/** A mistake planted in a small set, and the one thing that the analysis has to find. */
export interface Defect extends Invented {
  readonly what: string;
  readonly kind: FindingKind;
  readonly of: readonly string[];
  readonly possible?: true;
}

const one = (when: Json, rest: Json = {}): Invented['rules'] => ({ one: { when, ...rest } });
const same = says('Review it.');
const locked = { locked: true } as const;
const excludes = (condition: Json, rest: Json = {}): Json => ({
  of: 'catheter',
  excludes: condition,
  ...rest,
});
const prefers = (options: Json, rest: Json = {}): Json => ({ of: 'catheter', prefers: { options }, ...rest });

const never = (what: string, when: Json, rest: Partial<Defect> = {}): Defect => ({
  what,
  kind: 'never-applies',
  of: ['one'],
  rules: one(when),
  ...rest,
});

export const DEFECTS: readonly Defect[] = [
  never('two limits that leave nothing between them', all(count('>', 2), count('<', 3))),
  never('a lower limit above the upper one', all(hours('>=', 24), hours('<=', 12))),
  never('"any" mistaken for "all"', all(bag('=', 'day'), bag('=', 'night'))),
  never('yes and no at once', all(pain, fever, not(pain))),
  never(
    'a sign that is there and is not',
    all(holds('care.signs', 'has', 'fever'), holds('care.signs', 'lacks', 'fever')),
  ),
  never(
    'more signs than are there to count',
    all(holds('care.signs', 'lacks', 'fever'), holds('care.signs-seen', '>=', 2)),
  ),
  never('a value of what is not recorded', all(holds('care.count', 'notRecorded'), count('>', 1))),
  never(
    'hours and days of one time that do not meet',
    all(holds('care.hours-in', '>', 48), holds('care.days-in', '<', 1)),
  ),
  never('the opposite of its own scope', pain, { rules: one(pain, { scope: not(pain) }) }),
  never('the opposite of the scope of the set', count('>', 3), { set: { scope: count('<=', 3) } }),
  never('a named condition that nobody meets', all({ condition: 'both' }, fever), {
    set: { conditions: { both: all(bag('=', 'day'), bag('=', 'leg')) } },
  }),
  never('a lock disarmed by the population', hours('<', 5), {
    set: { population: { when: hours('>=', 5), otherwise: 'Not for them.' } },
    rules: one(hours('<', 5), locked),
  }),
  never('a lock disarmed by a limit turned round', all(count('>=', 2), not(count('>=', 1))), {
    rules: one(all(count('>=', 2), not(count('>=', 1))), locked),
  }),
  never('a check that nobody can miss', pain, {
    set: checklist,
    rules: { one: { expect: any(washed, not(washed)) } },
  }),
  never(
    'a sum beyond its parts',
    all(count('<=', 1), holds('care.more', '<=', 1), holds('care.both', '>=', 4)),
    {
      possible: true,
    },
  ),

  {
    what: 'a weakened operator: everybody meets one of two limits',
    kind: 'always-applies',
    of: ['one'],
    rules: one(any(hours('>=', 5), hours('<=', 10))),
  },
  {
    what: 'a condition that repeats the scope',
    kind: 'always-applies',
    of: ['one'],
    rules: one(any(pain, fever), { scope: pain }),
  },
  {
    what: '"not equal" to either of two',
    kind: 'always-applies',
    of: ['one'],
    rules: one(any(bag('!=', 'day'), bag('!=', 'night'))),
  },
  {
    what: 'every bag listed, one by one',
    kind: 'always-applies',
    of: ['one'],
    rules: one(any(bag('=', 'day'), bag('=', 'night'), bag('=', 'leg'))),
  },
  {
    what: 'a check that nobody can meet',
    kind: 'always-applies',
    of: ['one'],
    set: checklist,
    rules: { one: { expect: all(bag('=', 'day'), bag('=', 'leg')) } },
  },

  {
    what: 'one rule written twice',
    kind: 'redundant',
    of: ['two', 'one'],
    rules: { one: { when: pain, ...same }, two: { when: pain, ...same } },
  },
  {
    what: 'a further limit that says nothing further',
    kind: 'redundant',
    of: ['two', 'one'],
    rules: { one: { when: hours('>', 5), ...same }, two: { when: hours('>', 9), ...same } },
  },
  {
    what: 'the same bags in other words',
    kind: 'redundant',
    of: ['two', 'one'],
    rules: { one: { when: bag('in', ['day', 'night']), ...same }, two: { when: bag('!=', 'leg'), ...same } },
  },
  {
    what: 'the same time in other units',
    kind: 'redundant',
    of: ['two', 'one'],
    rules: {
      one: { when: holds('care.hours-in', '>=', 48), ...same },
      two: { when: holds('care.days-in', '>=', 2.1), ...same },
    },
  },
  {
    what: 'a narrower rule before a wider one',
    kind: 'redundant',
    of: ['one', 'two'],
    rules: { one: { when: all(pain, fever), ...same }, two: { when: pain, ...same } },
  },

  {
    what: 'a conclusion behind a wider one',
    kind: 'never-stands',
    of: ['two', 'one'],
    set: byDefault('stop', 'go'),
    rules: { one: { when: any(pain, fever), concludes: 'stop' }, two: { when: pain, concludes: 'go' } },
  },
  {
    what: 'a conclusion behind a weaker limit',
    kind: 'never-stands',
    of: ['two', 'one'],
    set: byDefault('stop', 'go'),
    rules: { one: { when: hours('>', 5), concludes: 'stop' }, two: { when: hours('>', 9), concludes: 'go' } },
  },
  {
    what: 'a conclusion behind two others together',
    kind: 'never-stands',
    of: ['three', 'one', 'two'],
    set: byDefault('stop', 'wait', 'go'),
    rules: {
      one: { when: hours('<', 5), concludes: 'stop' },
      two: { when: hours('>=', 5), concludes: 'wait' },
      three: { when: all(pain, hours('>', 1)), concludes: 'go' },
    },
  },

  {
    what: 'a rule folded by a wider one',
    kind: 'always-folded',
    of: ['two', 'one'],
    rules: { one: { when: pain, supersedes: ['two'] }, two: { when: all(pain, fever) } },
  },
  {
    what: 'a rule folded by one of two',
    kind: 'always-folded',
    of: ['three', 'one', 'two'],
    rules: {
      one: { when: all(pain, fever), supersedes: ['three'] },
      two: { when: all(pain, not(fever)), supersedes: ['three'] },
      three: { when: all(pain, any(all(fever, washed), not(any(fever, not(washed))))) },
    },
  },
  {
    what: 'a lock folded away by what is not locked',
    kind: 'lock-folded',
    of: ['two', 'one'],
    rules: { one: { when: fever, supersedes: ['two'] }, two: { when: pain, ...locked } },
  },

  {
    what: 'to remove and not to remove',
    kind: 'contradictory-advice',
    of: ['one', 'two'],
    rules: {
      one: { when: pain, ...says('Do not remove yet: ask the team.') },
      two: { when: fever, ...says('Fever: consider removing the catheter.') },
    },
  },
  {
    what: 'one of several things not to be done',
    kind: 'contradictory-advice',
    of: ['one', 'two'],
    rules: {
      one: { when: pain, ...says('It is full: do not pull, cut or overfill it.') },
      two: { when: fever, ...says('Review it, then cut it.') },
    },
  },
  {
    what: 'a suggestion against a stop',
    kind: 'contradictory-advice',
    of: ['one', 'two'],
    rules: {
      one: { when: pain, ...says('Ask first.', { suggestions: [{ label: 'Flush the catheter' }] }) },
      two: { when: fever, ...says('Do not flush the catheter; ask urology.') },
    },
  },
  {
    what: 'opposites that meet at one value only',
    kind: 'contradictory-advice',
    of: ['one', 'two'],
    rules: {
      one: { when: count('<=', 2), ...says('Do not plan a trial yet.') },
      two: { when: count('>=', 2), ...says('Plan the trial now.') },
    },
  },
  {
    what: 'opposites that a sum of two facts brings together',
    kind: 'contradictory-advice',
    of: ['one', 'two'],
    rules: {
      one: { when: holds('care.both', '>=', 3), ...says('Do not catheterise; ask first.') },
      two: { when: count('<=', 1), ...says('Consider catheterisation at night.') },
    },
  },

  {
    what: 'two checks that ask for different bags',
    kind: 'checks-contradict',
    of: ['one', 'two'],
    set: checklist,
    rules: { one: { expect: bag('=', 'day') }, two: { expect: bag('in', ['night', 'leg']) } },
  },
  {
    what: 'two checks whose scopes meet',
    kind: 'checks-contradict',
    of: ['one', 'two'],
    set: checklist,
    rules: {
      one: { scope: count('>=', 2), expect: hours('<', 5) },
      two: { scope: count('<=', 2), expect: hours('>', 8) },
    },
  },

  {
    what: 'a preference for what another does not prefer',
    kind: 'preference-contradicted',
    of: ['one', 'two'],
    sizes: [12, 13],
    rules: { one: prefers(size('<=', 14), { when: pain }), two: prefers(size('>=', 16), { when: fever }) },
  },
  {
    what: 'a preference for what is always ruled out',
    kind: 'preference-contradicted',
    of: ['two', 'one'],
    sizes: [12, 13],
    rules: {
      one: excludes(latex, { when: any(pain, fever) }),
      two: prefers(all(latex, size('<=', 14)), { when: fever }),
    },
  },
  {
    what: 'an exclusion that no item can meet',
    kind: 'concerns-no-item',
    of: ['one'],
    sizes: [12, 13],
    rules: { one: excludes(all(size('>', 20), size('<', 10)), { when: pain }) },
  },

  {
    what: 'two strict limits with a value between them',
    kind: 'gap',
    of: ['conclusion'],
    set: decision('more', 'less'),
    rules: {
      one: { when: count('>', 2), concludes: 'more' },
      two: { when: count('<', 2), concludes: 'less' },
    },
  },
  {
    what: 'a bag that nobody thought of',
    kind: 'gap',
    of: ['conclusion'],
    set: decision('a', 'b'),
    rules: {
      one: { when: bag('=', 'day'), concludes: 'a' },
      two: { when: bag('=', 'night'), concludes: 'b' },
    },
  },
  {
    what: 'a gap behind a scope',
    kind: 'gap',
    of: ['conclusion'],
    set: decision('a', 'b'),
    rules: { one: { scope: fever, when: pain, concludes: 'a' }, two: { when: not(pain), concludes: 'b' } },
  },

  {
    what: 'latex and all that is not latex ruled out',
    kind: 'nothing-left',
    of: ['catheter'],
    sizes: [12, 13],
    rules: { one: excludes(latex, { when: pain }), two: excludes(not(latex), { when: fever }) },
  },
  {
    what: 'too small and too large with nothing between',
    kind: 'nothing-left',
    of: ['catheter'],
    sizes: [10, 12, 18],
    rules: {
      one: excludes(size('<', 14), { when: count('>=', 2) }),
      two: excludes(size('>', 16), { when: holds('care.days-in', '>', 2) }),
    },
  },
  {
    what: 'a lock that leaves only what another rules out',
    kind: 'nothing-left',
    of: ['catheter'],
    sizes: [12, 14, 15],
    rules: {
      one: excludes(latex, { when: pain, ...locked }),
      two: excludes(size('>=', 15), { when: any(fever, washed) }),
    },
  },

  {
    what: 'a limit at the lower end of what is possible',
    kind: 'limit-without-effect',
    of: ['one/when', 'care.count', 'greaterThanInclusive'],
    rules: one(all(pain, count('>=', 0))),
  },
  {
    what: 'a limit at the upper end',
    kind: 'limit-without-effect',
    of: ['one/when', 'care.hours', 'greaterThan'],
    rules: one(any(pain, hours('>', 100))),
  },
  {
    what: 'a list of every code',
    kind: 'limit-without-effect',
    of: ['one/when', 'care.bag', 'in'],
    rules: one(all(pain, bag('in', ['day', 'night', 'leg']))),
  },
  {
    what: 'more signs than the count can reach',
    kind: 'limit-without-effect',
    of: ['one/when', 'care.signs-seen', 'greaterThan'],
    rules: one(any(pain, holds('care.signs-seen', '>', 2))),
  },
  {
    what: 'a time beyond its limits',
    kind: 'limit-without-effect',
    of: ['long', 'care.days-in', 'greaterThan'],
    set: { conditions: { long: any(fever, holds('care.days-in', '>', 10_000)) } },
    rules: one(all(pain, { condition: 'long' })),
  },

  {
    what: 'a local choice that another condition covers',
    kind: 'choice-without-effect',
    of: ['care.longest'],
    rules: one(any(hours('>=', 10), all(hours('>', 'care.longest'), pain))),
  },
  {
    what: 'a local choice of both ways',
    kind: 'choice-without-effect',
    of: ['care.strict'],
    rules: one(
      any(all({ parameter: 'care.strict', operator: 'equal', value: true }, pain), all(pain, fever), pain),
    ),
  },

  {
    what: 'a value between two strict limits falls back to the default',
    kind: 'gap-between',
    of: ['conclusion', 'care.count'],
    set: byDefault('more', 'less'),
    rules: {
      one: { when: all(pain, count('>', 2)), concludes: 'more' },
      two: { when: count('<', 2), concludes: 'less' },
    },
  },
  {
    what: 'days between two times of one instant',
    kind: 'gap-between',
    of: ['conclusion', 'care.at'],
    set: byDefault('long', 'short'),
    rules: {
      one: { when: holds('care.days-in', '>', 2), concludes: 'long' },
      two: { when: holds('care.hours-in', '<', 40), concludes: 'short' },
    },
  },
];
