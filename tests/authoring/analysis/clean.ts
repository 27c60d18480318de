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

/** A small set that is as it should be, beside some planted defect. */
export interface Clean extends Invented {
  readonly what: string;
}

const choice = (rest: Json): Json => ({ of: 'catheter', ...rest });

/** Nothing is to be said of these, close as they come to a defect. */
export const CLEAN: readonly Clean[] = [
  {
    what: 'two limits with one value between them',
    rules: { one: { when: all(count('>', 1), count('<', 3)) } },
  },
  {
    what: 'a scope that leaves something to ask',
    rules: { one: { scope: fever, when: any(pain, not(washed)) } },
  },
  {
    what: 'a rule that asks nothing and speaks to all in its scope',
    rules: { one: { scope: pain, when: { parameter: 'care.strict', operator: 'equal', value: true } } },
  },
  {
    what: 'graded advice: the stronger word beyond a further limit',
    rules: { one: { when: hours('>', 12) }, two: { when: hours('>', 'care.longest') } },
  },
  {
    what: 'the same words to different patients',
    rules: {
      one: { when: all(pain, bag('=', 'day')), ...says('Review it.') },
      two: { when: all(fever, bag('=', 'leg')), ...says('Review it.') },
    },
  },
  {
    what: 'the same words to those of whom less is known',
    rules: {
      one: { when: all(pain, washed), ...says('Review it.') },
      two: { when: all(pain, any(fever, not(fever))), ...says('Review it.') },
    },
  },
  {
    what: 'the same words to those of whom a number is known in part',
    rules: {
      one: { when: count('>=', 1), ...says('Review it.') },
      two: { when: any(pain, all(count('>=', 1), count('<=', 2)), count('>', 2)), ...says('Review it.') },
    },
  },
  {
    what: 'a lock in the words of a rule that may be switched off',
    rules: {
      one: { when: pain, locked: true, ...says('Review it.') },
      two: { when: any(pain, fever), ...says('Review it.') },
    },
  },
  {
    what: 'a lock for those whose population cannot be established',
    set: { population: { when: all(fever, not(fever)), otherwise: 'Not for them.' } },
    rules: { one: { when: pain, locked: true } },
  },
  {
    what: 'conclusions that narrow down',
    set: byDefault('stop', 'go'),
    rules: { one: { when: all(pain, fever), concludes: 'stop' }, two: { when: pain, concludes: 'go' } },
  },
  {
    what: 'a decision that is complete without a default',
    set: decision('more', 'less'),
    rules: {
      one: { when: count('>=', 2), concludes: 'more' },
      two: { when: count('<', 2), concludes: 'less' },
    },
  },
  {
    what: 'a decision that is complete over three bags',
    set: decision('a', 'b'),
    rules: {
      one: { when: bag('in', ['day', 'leg']), concludes: 'a' },
      two: { when: bag('=', 'night'), concludes: 'b' },
    },
  },
  {
    what: 'limits that meet',
    set: byDefault('more', 'less'),
    rules: {
      one: { when: all(pain, hours('>=', 5)), concludes: 'more' },
      two: { when: hours('<', 5), concludes: 'less' },
    },
  },
  {
    what: 'a middle that concludes something of its own',
    set: byDefault('more', 'less', 'same'),
    rules: {
      one: { when: count('>', 2), concludes: 'more' },
      two: { when: count('<', 2), concludes: 'less' },
      three: { when: count('=', 2), concludes: 'same' },
    },
  },
  {
    what: 'a rule that is folded only while a stronger one applies',
    rules: { one: { when: all(pain, fever), supersedes: ['two'] }, two: { when: pain } },
  },
  {
    what: 'a rule whose folder may still be undetermined',
    rules: {
      one: { when: any(all(pain, fever), all(pain, not(fever))), supersedes: ['two'] },
      two: { when: pain },
    },
  },
  {
    what: 'a lock that only another lock folds',
    rules: { one: { when: fever, locked: true, supersedes: ['two'] }, two: { when: pain, locked: true } },
  },
  {
    what: 'a critical lock, which nothing folds',
    rules: {
      one: { when: pain, supersedes: ['two'] },
      two: { when: pain, locked: true, ...says('Do not wait: ask now.', { indicator: 'critical' }) },
    },
  },
  {
    what: 'opposites to different patients',
    rules: {
      one: { when: count('<', 2), ...says('Do not remove it yet.') },
      two: { when: count('>=', 2), ...says('Consider removing it.') },
    },
  },
  {
    what: 'opposites of which one folds the other',
    rules: {
      one: { when: pain, supersedes: ['two'], ...says('Do not remove it yet.') },
      two: { when: fever, ...says('Consider removing it.') },
    },
  },
  {
    what: 'not to use one thing, and to use another',
    rules: {
      one: { when: pain, ...says('Do not use a gel with lidocaine; ask for plain gel.') },
      two: { when: fever, ...says('Use a gel with chlorhexidine.') },
    },
  },
  {
    what: 'opposites that two times of one instant keep apart',
    rules: {
      one: { when: holds('care.hours-in', '<', 24), ...says('Do not remove it yet.') },
      two: { when: holds('care.days-in', '>=', 1.1), ...says('Consider removing it.') },
    },
  },
  {
    what: 'checks of which one gives way',
    set: checklist,
    rules: {
      one: { scope: not(pain), expect: bag('=', 'day') },
      two: { scope: pain, expect: bag('=', 'night') },
    },
  },
  {
    what: 'a check of what was done where another is missed',
    set: checklist,
    rules: {
      one: { expect: bag('=', 'day') },
      two: { scope: bag('in', ['night', 'leg']), expect: washed },
    },
  },
  {
    what: 'a rule that a local choice silences',
    rules: {
      one: { when: all(pain, { parameter: 'care.strict', operator: 'equal', value: false }) },
    },
  },
  {
    what: 'checks that one bag meets',
    set: checklist,
    rules: { one: { expect: bag('in', ['day', 'night']) }, two: { expect: bag('!=', 'day') } },
  },
  {
    what: 'preferences that some item meets',
    sizes: [12, 14, 15],
    rules: {
      one: choice({ when: pain, prefers: { options: size('<=', 14) } }),
      two: choice({ when: fever, prefers: { options: latex } }),
    },
  },
  {
    what: 'a preference that a stop overrules for some',
    sizes: [12, 13],
    rules: {
      one: choice({ when: fever, excludes: latex }),
      two: choice({ when: pain, prefers: { options: latex } }),
    },
  },
  {
    what: 'exclusions that leave one size',
    sizes: [10, 12, 15],
    rules: {
      one: choice({ when: count('>=', 2), excludes: size('<', 12) }),
      two: choice({ when: count('<', 2), excludes: latex }),
    },
  },
  {
    what: 'exclusions that no patient meets together',
    sizes: [12, 13],
    rules: {
      one: choice({ when: holds('care.hours-in', '<', 24), excludes: latex }),
      two: choice({ when: holds('care.days-in', '>=', 1.1), excludes: not(latex) }),
    },
  },
  {
    what: 'a local choice that a text alone shows',
    rules: { one: { when: pain, ...says('Review it within {{care.longest}} h.') } },
  },
];
