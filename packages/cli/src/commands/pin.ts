import { writeFileSync } from 'node:fs';
import { pin as pinHospital } from '@dwellset/authoring';
import { CannotRun, type Finished } from '../cannotRun.ts';
import { type Command, POLICIES } from '../command.ts';
import { placed, readPolicies } from '../files/policies.ts';
import { firstOf } from '../files/readCase.ts';
import { whyNot } from '../files/readText.ts';

export const pin: Command = {
  name: 'pin',
  usage: ['HOSPITAL', '[--policies DIR]'],
  summary: "fills versions and digests into a hospital's amendment and adoption",
  details: [
    'HOSPITAL is its folder, or its name among the hospitals of the policies.',
    'To pin is to say that the amendment was read against the rules as they are now: read it first.',
  ],
  options: POLICIES,
  atMost: 1,
  run(given): Finished {
    const [hospital] = given.arguments;
    if (hospital === undefined) throw new CannotRun('no hospital is named; see `dwellset help pin`');
    const policies = readPolicies(given.one('policies'), hospital);
    const { files, refused } = pinHospital(policies.files, policies.hospital ?? hospital);
    if (refused.length > 0) {
      throw new CannotRun(firstOf(refused.map((diagnostic) => placed(policies, diagnostic))));
    }
    const changed = [...files].filter(([path, text]) => policies.files.get(path) !== text);
    for (const [path, text] of changed) {
      try {
        writeFileSync(policies.file(path), text);
      } catch (error) {
        throw new CannotRun(`${policies.shown(path)}: ${whyNot(error).replace('read', 'written')}`);
      }
    }
    if (files.size === 0) throw new CannotRun(`${hospital}: holds neither an amendment nor an adoption`);
    const lines = [...files.keys()].map((path) => {
      const pinned = changed.some(([other]) => other === path);
      return `${policies.shown(path)}: ${pinned ? 'pinned' : 'was pinned already'}\n`;
    });
    return { text: lines.join('') };
  },
};
