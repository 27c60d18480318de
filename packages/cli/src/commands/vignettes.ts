import {
  type Library,
  type LocalVignetteResult,
  runForHospital,
  runVignettes,
  type VignetteResult,
} from '@dwellset/authoring';
import { vignettesText } from '@dwellset/wording';
import { type Command, columns, POLICIES } from '../command.ts';
import { readPolicies } from '../files/policies.ts';
import { shownVignette } from '../files/shownVignette.ts';
import { within } from '../files/within.ts';
import { coverageOf, leastOf } from './coverage.ts';

const fileOf = (library: Library, { set, rule }: VignetteResult) =>
  library.sets.get(set)?.vignettes.get(rule);

export const vignettes: Command = {
  name: 'vignettes',
  usage: ['[PATH]', '[--coverage]', '[--least PERCENT]', '[--hospital DIR]', '[--policies DIR]'],
  summary: 'runs the invented cases and says which of them do not come out as they must',
  details: [
    'PATH is a policies folder, the name of a rule set, or a vignettes file. Without PATH all are run.',
    'With --hospital they run on the rules as that hospital has amended them. What comes out otherwise because of a change of the amendment is listed under that change and its reason, and is no failure; what no change accounts for is one, and so is a locked rule that says less.',
    'With --coverage it says after the run what the vignettes of these sets do not show: outcomes of rules, truth values of conditions and that each decides alone (masking MC/DC), limits, options. What is proven impossible is listed and does not count.',
    'With --least a total of any set below that percentage is a failure.',
  ],
  options: {
    ...POLICIES,
    hospital: { type: 'string', value: 'DIR' },
    coverage: { type: 'boolean' },
    least: { type: 'string', value: 'PERCENT' },
  },
  atMost: 1,
  run(given) {
    const least = leastOf(given);
    const { policies: own, holds } = within(given.arguments[0], given.one('policies'));
    const policies = readPolicies(own ?? given.one('policies'), given.one('hospital'));
    const { hospital, library } = policies;
    const sets = [...library.sets.values()].filter(({ vignettes: files }) =>
      [...files.values()].some(({ document }) => holds(document.path)),
    );
    const results = sets
      .flatMap(({ id }): readonly LocalVignetteResult[] =>
        hospital === undefined
          ? runVignettes(library, { set: id })
          : runForHospital(library, { set: id, hospital }),
      )
      .filter((result) => holds(fileOf(library, result)?.document.path ?? ''));
    const text = vignettesText(
      results.map((result) => shownVignette(result, policies)),
      columns(),
    );
    const failed = results.some(({ passed, changedBy }) => !passed && changedBy === undefined);
    if (!given.has('coverage')) return { text, failed };
    // A set without any vignette is the least covered of all.
    const named = [...library.sets.values()].filter(
      (set) => sets.includes(set) || holds(set.ruleSet.document.path),
    );
    const covered = coverageOf(
      policies,
      named.map(({ id }) => id),
      least,
    );
    return { text: `${text}\n${covered.text}`, failed: failed || covered.failed };
  },
};
