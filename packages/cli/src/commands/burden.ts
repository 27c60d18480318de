import { burdenOf, simulateWard, wardsOf } from '@dwellset/authoring';
import { burdenText } from '@dwellset/wording';
import { CannotRun } from '../cannotRun.ts';
import { type Command, columns, RULES } from '../command.ts';
import { readPolicies } from '../files/policies.ts';
import type { Given } from '../options.ts';
import { planOf } from '../planOf.ts';
import { seedOf } from '../seed.ts';

/** The same command line for the published sets, which are drafts. */
const asPublished = (given: Given): Given => ({
  ...given,
  all: (option) => (option === 'allow' ? ['draft', ...given.all('allow')] : given.all(option)),
});

export const burden: Command = {
  name: 'burden',
  usage: [
    '[WARD]',
    '[--hospital DIR]',
    '[--set ID]...',
    '[--allow STATE]...',
    '[--seed N]',
    '[--as text|json]',
    '[--policies DIR]',
  ],
  summary: 'says how much a ward of invented patients would be told, by rule, and how often again',
  details: [
    'WARD is the id of a document in wards; the first one where it is left out.',
    'With --hospital the published sets stand beside those that the hospital has adopted.',
    'The same seed gives the same patients. The ward is invented: it compares rules, and is no forecast for any hospital.',
  ],
  options: {
    ...RULES,
    seed: { type: 'string', value: 'N' },
    as: { type: 'string', value: 'FORM', oneOf: ['text', 'json'] },
  },
  atMost: 1,
  run(given) {
    const policies = readPolicies(given.one('policies'), given.one('hospital'));
    const wards = wardsOf(policies.library);
    const [name = [...wards.keys()][0] ?? ''] = given.arguments;
    const ward = wards.get(name);
    if (ward === undefined) {
      throw new CannotRun(
        `there is no ward \`${name}\`; there are: ${[...wards.keys()].join(', ') || 'none'}`,
      );
    }
    const seed = seedOf(given);
    const days = simulateWard(ward, seed);
    const { hospital: _, ...published } = policies;
    const plans = [
      { name: 'published', plan: planOf(published, asPublished(given)) },
      ...(policies.hospital === undefined ? [] : [{ name: 'amended', plan: planOf(policies, given) }]),
    ];
    const sides = plans.map((side) => ({ name: side.name, burden: burdenOf(side.plan, days) }));
    if (given.one('as') === 'json') {
      return { text: `${JSON.stringify({ ward: ward.id, seed, invented: true, sides }, null, 2)}\n` };
    }
    const releases = plans.flatMap(({ plan }) => plan.sets.map(({ release }) => release));
    return { text: burdenText({ ward: ward.title, seed, sides, releases, width: columns() }) };
  },
};
