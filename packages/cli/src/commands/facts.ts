import { factsText } from '@dwellset/wording';
import { type Command, columns, POLICIES } from '../command.ts';
import { groupTitles } from '../files/groupTitles.ts';
import { readPolicies } from '../files/policies.ts';
import { releaseOf } from '../planOf.ts';

export const facts: Command = {
  name: 'facts',
  usage: ['[SET]', '[--policies DIR]'],
  summary: 'lists the facts that a case may supply, all or those that one rule set reads',
  details: ['Each with its question, type, unit, limits and codes.'],
  options: POLICIES,
  atMost: 1,
  run(given) {
    const policies = readPolicies(given.one('policies'));
    const { library } = policies;
    const groups = groupTitles(library);
    const [set] = given.arguments;
    const shown =
      set === undefined
        ? {
            facts: [...library.facts.values()].map(({ value }) => value),
            codes: Object.fromEntries([...library.codes].map(([name, { value }]) => [name, value])),
          }
        : releaseOf(policies, set);
    return { text: factsText({ ...shown, groups }, columns()) };
  },
};
