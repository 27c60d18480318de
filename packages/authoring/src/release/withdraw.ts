import type { DocumentOf } from '../documents/kinds.ts';
import type { ReleaseFile } from './releaseFile.ts';

export interface Withdrawing {
  readonly reason: string;
  /** Calendar day, `YYYY-MM-DD`. */
  readonly date: string;
  readonly approverRole: string;
  /** Version of the same set to use instead. */
  readonly replacement?: string;
}

export const withdrawalPath = ({ id, version }: { readonly id: string; readonly version: string }): string =>
  `withdrawals/${id}-${version}.json`;

/** The record that takes a release back; the released file itself never changes. */
export function withdrawalOf(
  { release: { id, version }, digest }: Pick<ReleaseFile, 'release' | 'digest'>,
  { reason, date, approverRole, replacement }: Withdrawing,
): DocumentOf<'withdrawal'> {
  return {
    $schema: 'urn:dwellset:withdrawal:1',
    id,
    version,
    digest,
    date,
    approverRole,
    reason,
    ...(replacement !== undefined && { replacement }),
  };
}
