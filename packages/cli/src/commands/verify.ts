import { readReleaseFile } from '@dwellset/authoring';
import { verifiedText } from '@dwellset/wording';
import { CannotRun } from '../cannotRun.ts';
import { type Command, columns, POLICIES } from '../command.ts';
import { publicKeyGiven } from '../files/keys.ts';
import { readPolicies } from '../files/policies.ts';
import { readBytes } from '../files/releaseFiles.ts';

export const verify: Command = {
  name: 'verify',
  usage: ['FILE', '[--trust PUBLICKEY]...', '[--policies DIR]'],
  summary:
    'says whether a release file is what was released, by whom it is signed, and whether it was withdrawn',
  details: [
    'Every byte counts: the rules, the results, the vignettes, the comparison and the way in which they are written.',
    'With --trust it must be signed by one of those keys, each 64 hex digits or a PEM file. Without it a signature must be true, and anybody may have made it.',
    'A withdrawal is looked for among the policies. The exit code is 2 where the file is refused or withdrawn.',
  ],
  options: { ...POLICIES, trust: { type: 'string', multiple: true, value: 'PUBLICKEY' } },
  atMost: 1,
  run(given) {
    const [path] = given.arguments;
    if (path === undefined) throw new CannotRun('no release file is named; see `dwellset help verify`');
    const trust = given.all('trust').map(publicKeyGiven);
    const opened = readReleaseFile(readBytes(path, path), trust.length > 0 ? { trust } : {});
    const { withdrawals } = readPolicies(given.one('policies')).library;
    const withdrawal =
      opened.refused === undefined
        ? withdrawals.find(
            ({ id, version }) => id === opened.file.release.id && version === opened.file.release.version,
          )
        : undefined;
    return {
      text: verifiedText(
        path,
        opened,
        { trusted: trust.length > 0, ...(withdrawal && { withdrawal }) },
        columns(),
      ),
      failed: opened.refused !== undefined || withdrawal !== undefined,
    };
  },
};
