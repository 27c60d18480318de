import { compareReleases, vignetteSeeds, wardSeeds } from '@dwellset/authoring';
import { comparisonText } from '@dwellset/wording';
import { CannotRun } from '../cannotRun.ts';
import { type Command, columns, POLICIES } from '../command.ts';
import { readPolicies } from '../files/policies.ts';
import { seedOf } from '../seed.ts';
import { type SideNamed, sideOf } from '../sides.ts';

export const compare: Command = {
  name: 'compare',
  usage: [
    'BEFORE',
    '[AFTER]',
    '[--hospital DIR]',
    '[--set ID]...',
    '[--seed N]',
    '[--as text|json]',
    '[--policies DIR]',
  ],
  summary: 'lays two versions side by side: what comes out otherwise, each with a smallest case',
  details: [
    'BEFORE and AFTER are each a release file, a policies folder, a hospital folder, or the name of a rule set.',
    'Without AFTER and with --hospital, what is published stands beside what that hospital makes of it.',
    'Both sides are run on the vignettes, on the days of the invented wards and on cases made for the parts that changed. No outcome changed is a statement about those cases.',
    'A difference is no error: the exit code is 0.',
  ],
  options: {
    ...POLICIES,
    hospital: { type: 'string', value: 'DIR' },
    set: { type: 'string', multiple: true, value: 'ID' },
    seed: { type: 'string', value: 'N' },
    as: { type: 'string', value: 'FORM', oneOf: ['text', 'json'] },
  },
  atMost: 2,
  run(given) {
    const [first, second] = given.arguments;
    const folder = given.one('policies');
    const hospital = given.one('hospital');
    if (first === undefined || (second === undefined && hospital === undefined)) {
      throw new CannotRun('two versions are needed, or one and `--hospital`; see `dwellset help compare`');
    }
    const before = sideOf(first, folder);
    const after = sideOf(second ?? first, folder, hospital);
    const ids = setsOf(before, after, given.all('set'));
    const { library } = after.policies ?? before.policies ?? readPolicies(folder);
    const days = wardSeeds(library, seedOf(given));
    const comparisons = ids.map((id) =>
      compareReleases(before.sets.get(id), after.sets.get(id), [...vignetteSeeds(library, id), ...days]),
    );
    if (given.one('as') === 'json') return { text: `${JSON.stringify(comparisons, null, 2)}\n` };
    const releases = [after, before].flatMap(({ sets }) => [...sets.values()].map(([release]) => release));
    return { text: comparisonText(comparisons, { releases, width: columns() }) };
  },
};

/** The sets of both sides; a release file narrows the other side to its own set. */
function setsOf(before: SideNamed, after: SideNamed, named: readonly string[]): string[] {
  const single = [before, after].find(({ sets, policies }) => policies === undefined || sets.size === 1);
  const all = single ? [...single.sets.keys()] : [...new Set([...before.sets.keys(), ...after.sets.keys()])];
  const unknown = named.find((id) => !all.includes(id));
  if (unknown !== undefined) {
    throw new CannotRun(`there is no rule set \`${unknown}\` on either side; there are: ${all.join(', ')}`);
  }
  return named.length > 0 ? [...new Set(named)] : all;
}
