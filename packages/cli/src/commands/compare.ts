import { dirname } from 'node:path';
import { buildRelease, compareReleases, rebase, vignetteSeeds, wardSeeds } from '@dwellset/authoring';
import { comparisonText, rebaseText } from '@dwellset/wording';
import { CannotRun, type Finished } from '../cannotRun.ts';
import { type Command, columns, POLICIES } from '../command.ts';
import { type Policies, readPolicies } from '../files/policies.ts';
import type { Given } from '../options.ts';
import { seedOf } from '../seed.ts';
import { type SideNamed, sideOf } from '../sides.ts';

export const compare: Command = {
  name: 'compare',
  usage: [
    'BEFORE',
    '[AFTER]',
    '[--hospital DIR]',
    '[--base NEW]',
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
    'With --base, BEFORE is a hospital and NEW the policies folder of another base: of each local change it says whether it applies as it stands, meets a change of the base, or is no longer needed, as a question to whoever decides. `--policies` is the base that the amendment was made for.',
    'A difference is no error: the exit code is 0.',
  ],
  options: {
    ...POLICIES,
    hospital: { type: 'string', value: 'DIR' },
    base: { type: 'string', value: 'NEW' },
    set: { type: 'string', multiple: true, value: 'ID' },
    seed: { type: 'string', value: 'N' },
    as: { type: 'string', value: 'FORM', oneOf: ['text', 'json'] },
  },
  atMost: 2,
  run(given) {
    const [first, second] = given.arguments;
    const folder = given.one('policies');
    const hospital = given.one('hospital');
    const base = given.one('base');
    if (base !== undefined) return rebased(given, base);
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

/** A hospital's amendment between the base it was made for and another one. */
function rebased(given: Given, base: string): Finished {
  const [named, second] = given.arguments;
  if (named === undefined || second !== undefined || given.has('hospital') || given.has('set')) {
    throw new CannotRun('`--base` goes with one hospital and nothing beside it; see `dwellset help compare`');
  }
  const before = readPolicies(given.one('policies'), named);
  const own = dirname(before.file(`hospitals/${before.hospital}/amendment.json`));
  const after = readPolicies(base, own);
  const found = rebase(before.library, after.library, before.hospital ?? '');
  if (found === undefined) throw new CannotRun(`${named}: no amendment lies there that could be read`);
  if (given.one('as') === 'json') return { text: `${JSON.stringify(found, null, 2)}\n` };
  const published = ({ library }: Policies) =>
    found.sets.flatMap(({ set }) => buildRelease(library, set).release ?? []);
  return {
    text: rebaseText(found, { before: published(before), after: published(after), width: columns() }),
  };
}

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
