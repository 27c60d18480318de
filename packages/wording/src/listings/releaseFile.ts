import type { Release, Withdrawal } from '@dwellset/core';
import type { OpenedReleaseFile, ReleaseFile, ReleaseFileRefusal } from '@dwellset/core/release-file';
import { cautionLines, cautions } from '../cautions.ts';
import { asText, blocks, clean, usableWidth, wrap } from '../layout.ts';
import { listed } from '../words.ts';
import type { GateShown } from './release.ts';

const REFUSALS: Readonly<Record<ReleaseFileRefusal, string>> = {
  'no-release-file': 'is no release file',
  changed: 'was changed since it was released',
  'not-signed': 'is not signed',
  'other-key': 'is signed, but by no key that is trusted here',
};

/** Why a release file is not used, to stand behind its name. */
export const refusalWords = (refused: ReleaseFileRefusal): string => REFUSALS[refused];

type Taken = Pick<Withdrawal, 'id' | 'version' | 'date' | 'approverRole' | 'reason' | 'replacement'>;

/** That a version must no longer be used, as one sentence or two. */
const withdrawalWords = ({ id, version, date, approverRole, reason, replacement }: Taken): string =>
  `${id} ${version} was withdrawn on ${date} (${approverRole}): ${reason.replace(/\.$/, '')}. ${
    replacement === undefined ? 'No version is named to use instead.' : `Use ${replacement} instead.`
  }`;

const GATES: readonly (readonly [GateShown['outcome'], string])[] = [
  ['passed', 'passed'],
  ['accepted', 'accepted in spite of what was found'],
];

/** Which gates were passed, and which were accepted with a reason. */
function gateLines(results: readonly GateShown[], width: number): string[] {
  return GATES.flatMap(([outcome, words]) => {
    const own = results.filter((one) => one.outcome === outcome);
    if (own.length === 0) return [];
    const names = own.map(({ gate, reason }) => (reason === undefined ? gate : `${gate} (${reason})`));
    return wrap(clean(`Gates ${words}: ${listed(names, 'and')}`), width, '  ', '     ');
  });
}

function signatureWords(signedBy: string | undefined, trusted: boolean): string {
  if (signedBy === undefined) return 'Not signed: nothing says who released it.';
  return trusted
    ? `Signed with the trusted key ${signedBy}.`
    : `Signed with the key ${signedBy}; whose it is, was not asked.`;
}

const nameOf = ({ title, id, version, status }: Release): string => `${title} (${id}) ${version}, ${status}`;

/** What a release file turned out to be. */
export function verifiedText(
  path: string,
  opened: OpenedReleaseFile<ReleaseFile & { readonly results: readonly GateShown[] }>,
  { trusted, withdrawal }: { readonly trusted: boolean; readonly withdrawal?: Taken },
  width?: number,
): string {
  const columns = usableWidth(width);
  const caution = cautionLines(cautions, columns);
  if (opened.refused) {
    return asText(
      blocks([wrap(clean(`Refused: ${path} ${refusalWords(opened.refused)}.`), columns), caution]),
    );
  }
  const { release, digest, seal, results } = opened.file;
  return asText(
    blocks([
      wrap(clean(nameOf(release)), columns),
      [
        'Every byte is as it was released.',
        `  digest ${digest}`,
        `  seal   ${seal}`,
        ...gateLines(results, columns),
        ...wrap(signatureWords(opened.signedBy, trusted), columns, '  ', '     '),
      ],
      wrap(
        clean(
          withdrawal
            ? withdrawalWords(withdrawal)
            : 'No withdrawal of it stands among the policies read here.',
        ),
        columns,
      ),
      caution,
    ]),
  );
}

/** What was taken out of use, and who still has it. */
export function withdrawnText(
  withdrawal: Taken,
  written: string,
  adopting: readonly string[],
  width?: number,
): string {
  const columns = usableWidth(width);
  const still =
    adopting.length === 0
      ? 'No hospital among these policies has adopted it.'
      : `Adopted by ${listed([...adopting], 'and')}: it no longer runs there until another version is adopted.`;
  return asText(
    blocks([
      wrap(clean(withdrawalWords(withdrawal)), columns),
      wrap(clean(still), columns),
      wrap(`Written: ${written}. The released file itself stays as it is.`, columns),
      cautionLines(cautions, columns),
    ]),
  );
}
