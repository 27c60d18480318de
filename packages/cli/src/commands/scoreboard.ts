import { buildRelease, scoreboard as scoresOf } from '@dwellset/authoring';
import { scoreboardText } from '@dwellset/wording';
import { CannotRun } from '../cannotRun.ts';
import { type Command, columns, POLICIES } from '../command.ts';
import { readPolicies } from '../files/policies.ts';

export const scoreboard: Command = {
  name: 'scoreboard',
  usage: ['[KEY]', '[--policies DIR]'],
  summary: 'holds the published rules against answers that others published',
  details: [
    'KEY is the name of one answer key; without it all are run. Keys lie in the folder `published` of the policies.',
    'Each answer agrees, disagrees or cannot be decided. A disagreement names the rules behind it, the local choice on which sources differ, and the reason recorded in the key; one without a recorded reason is a failure.',
    'Where the rules were written from the same row, agreement is called transcription.',
  ],
  options: POLICIES,
  atMost: 1,
  run(given) {
    const policies = readPolicies(given.one('policies'));
    const { library } = policies;
    const [only] = given.arguments;
    if (only !== undefined && !library.keys.has(only)) {
      const known = [...library.keys.keys()].join(', ');
      throw new CannotRun(`there is no answer key \`${only}\`${known === '' ? '' : `; there are: ${known}`}`);
    }
    const keys = scoresOf(library, only);
    const releases = [...library.sets.keys()].flatMap((set) => buildRelease(library, set).release ?? []);
    return {
      text: scoreboardText(
        keys.map((key) => ({ ...key, path: policies.shown(key.path) })),
        { width: columns(), releases },
      ),
      failed: keys.some(({ cases }) =>
        cases.some(({ verdict, differs }) => verdict === 'disagreed' && differs === undefined),
      ),
    };
  },
};
