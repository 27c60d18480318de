import {
  checkCase,
  check as checkLibrary,
  type Diagnostic,
  hazardProof,
  type Library,
} from '@dwellset/authoring';
import { checkText } from '@dwellset/wording';
import type { Finished } from '../cannotRun.ts';
import { type Command, columns, POLICIES } from '../command.ts';
import { placed, readPolicies } from '../files/policies.ts';
import { readText } from '../files/readText.ts';
import { within } from '../files/within.ts';
import type { Given } from '../options.ts';

/** A case file of the user's own: it need not lie among the policies. */
function checkCaseFile(path: string, given: Given): Finished {
  const text = readText(path);
  const { library } = readPolicies(given.one('policies'));
  return finished(checkCase(library, path, text), 1);
}

/** Only rules without mistakes can be run, and only where the hazard log is asked about. */
function proofOf(
  library: Library,
  found: readonly Diagnostic[],
  holds: (path: string) => boolean,
): Diagnostic[] {
  if (!holds('hazards.json') || found.some(({ severity }) => severity === 'error')) return [];
  return hazardProof(library);
}

function finished(diagnostics: Parameters<typeof checkText>[0], documents: number): Finished {
  return {
    text: checkText(diagnostics, documents, columns()),
    failed: diagnostics.some(({ severity }) => severity === 'error'),
  };
}

export const check: Command = {
  name: 'check',
  usage: ['[PATH]', '[--policies DIR]'],
  summary: 'finds every mistake in rule documents or in a case file, with its place',
  details: [
    'PATH is a policies folder, a folder or document in one, the name of a rule set, or a case file.',
    'Without PATH everything is checked. Documents depend on each other, so all are read and those named are reported.',
    'Where the hazard log is among them and nothing else is wrong, every control in it is tried: with its rule switched off the named vignette must fail and show the reader something else.',
  ],
  options: POLICIES,
  atMost: 1,
  run(given) {
    const [path] = given.arguments;
    if (path?.endsWith('.case.json')) return checkCaseFile(path, given);
    const { policies: own, holds } = within(path, given.one('policies'));
    const policies = readPolicies(own ?? given.one('policies'));
    const documents = policies.library.documents.filter((document) => holds(document.path)).length;
    const everywhere = checkLibrary(policies.library);
    const found = everywhere.filter((diagnostic) => holds(diagnostic.path));
    const unproven = proofOf(policies.library, everywhere, holds);
    return finished(
      [...found, ...unproven].map((diagnostic) => placed(policies, diagnostic)),
      documents,
    );
  },
};
