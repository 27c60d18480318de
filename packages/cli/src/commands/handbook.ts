import { adoptionOf } from '@dwellset/authoring';
import { digest, type Release } from '@dwellset/core';
import { type HandbookShown, handbookHtml } from '@dwellset/wording';
import { type Command, POLICIES } from '../command.ts';
import { groupTitles } from '../files/groupTitles.ts';
import { type Policies, readPolicies } from '../files/policies.ts';
import { toFile } from '../files/toFile.ts';
import { releaseOf } from '../planOf.ts';

/** Every rule set as this hospital has it, adopted or not, with what only the documents hold. */
function shownOf(policies: Policies): HandbookShown {
  const { library, hospital } = policies;
  const adoption = hospital === undefined ? undefined : adoptionOf(library, hospital);
  const adopted = (adoption?.releases ?? []).map(({ id }) => id).filter((id) => library.sets.has(id));
  // In the order in which the hospital names them, so that its handbook reads in the order of its care.
  const sets = [...new Set([...adopted, ...library.sets.keys()])];
  const releases: readonly Release[] = sets.map((set) => releaseOf(policies, set));
  const controls = [...library.sets.values()].flatMap((set) =>
    [...set.vignettes].flatMap(([rule, { value }]) =>
      value.vignettes.map(({ id, title }) => [`${set.id}/${id}`, { title, rule }] as const),
    ),
  );
  return {
    releases,
    digests: new Map(releases.map((release) => [release.id, digest(release)])),
    ...(adoption && { adoption }),
    withdrawals: library.withdrawals,
    groups: groupTitles(library),
    controls: new Map(controls),
  };
}

export const handbook: Command = {
  name: 'handbook',
  usage: ['[--hospital DIR]', '[--to FILE]', '[--policies DIR]'],
  summary: 'writes the whole policy as one page to read, search and print',
  details: [
    'The page is HTML that holds everything it needs: rules as sentences with their evidence, local choices, tables, hazards, sources, facts and their questions, and what is from memory.',
    'With --hospital it is the policy as that hospital has amended it, with every change marked; without it the rules as published.',
    'It goes to FILE, whose name ends in .html, or to standard output.',
  ],
  options: {
    ...POLICIES,
    hospital: { type: 'string', value: 'DIR' },
    to: { type: 'string', value: 'FILE' },
  },
  atMost: 0,
  run(given) {
    const policies = readPolicies(given.one('policies'), given.one('hospital'));
    return toFile(given.one('to'), () => handbookHtml(shownOf(policies)));
  },
};
