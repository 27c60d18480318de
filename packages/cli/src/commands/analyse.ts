import { analyseSet, isSettled } from '@dwellset/authoring/analysis';
import { CAUTIONS } from '@dwellset/core';
import { analysisText } from '@dwellset/wording';
import { type Command, columns, POLICIES } from '../command.ts';
import { readPolicies } from '../files/policies.ts';
import { releaseOf } from '../planOf.ts';

export const analyse: Command = {
  name: 'analyse',
  usage: ['[SET...]', '[--hospital DIR]', '[--as text|json]', '[--policies DIR]'],
  summary: 'finds what is wrong with the rules by themselves, each finding with a patient who shows it',
  details: [
    'Rules that can never apply, always apply or add nothing; advice, checks and preferences that contradict each other; patients about whom a decision says nothing, or whom a choice leaves without an item; locked rules that others fold away; limits and local choices without effect.',
    'A patient who shows a finding was assessed and confirmed it. What could neither be shown nor ruled out is marked possible.',
    'A finding that may stay is accepted with its reason in `accepted/SET.json` of the policies, or in that of a hospital where it is about amended rules. When what it rests on changes, it has to be accepted anew.',
    'The exit code is 2 where a finding is left open, or an acceptance accepts nothing.',
  ],
  options: {
    ...POLICIES,
    hospital: { type: 'string', value: 'DIR' },
    as: { type: 'string', value: 'FORM', oneOf: ['text', 'json'] },
  },
  run(given) {
    const policies = readPolicies(given.one('policies'), given.one('hospital'));
    const { hospital, library, shown } = policies;
    const named = [...new Set(given.arguments)];
    const sets = named.length > 0 ? named : [...library.sets.keys()];
    const releases = sets.map((set) => releaseOf(policies, set));
    const analysed = sets.map((set) => analyseSet(library, set, hospital === undefined ? {} : { hospital }));
    return {
      text:
        given.one('as') === 'json'
          ? `${JSON.stringify({ sets: analysed, caution: CAUTIONS }, null, 2)}\n`
          : analysisText(analysed, { width: columns(), releases, shown }),
      failed: !analysed.every(isSettled),
    };
  },
};
