import type { Adoption, Release, Withdrawal } from '../release/release.ts';
import type { LeaveToRun } from './plan.ts';

/**
 * What a release's standing is under an adoption, and why it may not run. A draft becomes active only by a
 * hospital's adoption of exactly this version and digest; anything else needs the caller's word.
 */
export function standingOf(
  release: Release,
  digest: string,
  allowed: ReadonlySet<LeaveToRun>,
  adoption: Adoption | undefined,
  withdrawals: readonly Withdrawal[],
): { standing: string; refused?: string } {
  const adopted = adoption?.releases.find(
    (entry) => entry.id === release.id && entry.version === release.version,
  );
  const withdrawn = withdrawalOf(release, withdrawals);
  if (withdrawn) {
    const { date, reason, replacement } = withdrawn;
    const when = `withdrawn${date === undefined ? '' : ` on ${date}`}${adopted ? `, though ${adoption?.organisation} adopted it` : ''}`;
    const standing = `${when}: ${reason}${replacement === undefined ? '' : `; replaced by ${replacement}`}`;
    return allowed.has('withdrawn') ? { standing } : { standing, refused: `it is ${standing}` };
  }
  if (release.status === 'retired') {
    return allowed.has('retired')
      ? { standing: 'retired' }
      : { standing: 'retired', refused: 'it is retired' };
  }
  if (adopted && adopted.digest !== digest) {
    return {
      standing: release.status,
      refused: `${adoption?.organisation} adopted another text of this version: digest ${adopted.digest.slice(0, 12)}, this one is ${digest.slice(0, 12)}`,
    };
  }
  if (adopted) return { standing: 'active by adoption' };
  if (release.status === 'active') return { standing: 'active' };
  return allowed.has('draft')
    ? { standing: 'draft, run on request' }
    : { standing: 'draft', refused: 'it is a draft and no adoption names it' };
}

/** Why nobody should run a release, said by itself or by a withdrawal of its version, whatever was amended in it. */
function withdrawalOf(
  { id, version, withdrawn }: Release,
  withdrawals: readonly Withdrawal[],
): { readonly reason: string; readonly replacement?: string; readonly date?: string } | undefined {
  if (withdrawn) return withdrawn;
  const found = withdrawals.find((one) => one.id === id && one.version === version);
  if (found === undefined) return undefined;
  const { date, reason, replacement } = found;
  return { date, reason, ...(replacement !== undefined && { replacement: `${id} ${replacement}` }) };
}
