import { LEAST_NOTICED as LEAST, mutate as plant } from '@dwellset/authoring';
import { mutationText, noticesEnough } from '@dwellset/wording';
import { CannotRun } from '../cannotRun.ts';
import { type Command, columns, POLICIES } from '../command.ts';
import { readPolicies } from '../files/policies.ts';
import { percentOf } from '../percent.ts';
import { releaseOf } from '../planOf.ts';

export const mutate: Command = {
  name: 'mutate',
  usage: ['[SET]', '[--rule ID]', '[--least PERCENT]', '[--hospital DIR]', '[--policies DIR]'],
  summary: 'plants mistakes in the rules, one at a time, and says which of them no vignette notices',
  details: [
    'A comparison more or less strict or turned round, a limit one step off, a code left out or taken for another, "all" for "any", a condition or a "not" left out, another default of a local choice. Nothing is written.',
    'Each mistake that no expectation notices is listed with a patient who would have shown it: write a vignette of it. A mistake proven to be without effect does not count.',
    'With --rule only what that rule rests on is tried, and what is noticed is listed too, each with the patient who shows it.',
    `Fewer than ${LEAST} % noticed in a set is a failure, or fewer than --least; so is one unnoticed mistake in what a locked rule rests on.`,
  ],
  options: {
    ...POLICIES,
    hospital: { type: 'string', value: 'DIR' },
    rule: { type: 'string', value: 'ID' },
    least: { type: 'string', value: 'PERCENT' },
  },
  atMost: 1,
  run(given) {
    const least = percentOf(given, 'least') ?? LEAST;
    const policies = readPolicies(given.one('policies'), given.one('hospital'));
    const { hospital, library } = policies;
    const [named] = given.arguments;
    const rule = given.one('rule');
    const known = [...library.sets.values()].filter(({ id }) => named === undefined || id === named);
    const sets = known.filter((set) => rule === undefined || set.rules.has(rule)).map(({ id }) => id);
    if (named !== undefined && known.length === 0) releaseOf(policies, named);
    if (rule !== undefined && sets.length === 0) {
      throw new CannotRun(`there is no rule \`${rule}\`${named === undefined ? '' : ` in \`${named}\``}`);
    }
    const options = {
      ...(hospital === undefined ? {} : { hospital }),
      ...(rule === undefined ? {} : { rule }),
    };
    const tried = sets.flatMap((set) => plant(library, { set, ...options }).sets);
    const releases = sets.map((set) => releaseOf(policies, set));
    return {
      text: mutationText(
        { sets: tried },
        { width: columns(), releases, shown: policies.shown, least, noticed: rule !== undefined },
      ),
      failed: tried.some((set) => !noticesEnough(set, least)),
    };
  },
};
