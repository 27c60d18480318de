import { type EvidenceStatus, STATUSES } from '../release/evidence.ts';
import type { Release } from '../release/release.ts';
import type { EvidenceShown } from './assessment.ts';

const rank = (status: EvidenceStatus): number => STATUSES.indexOf(status);

/** The evidence of a rule in full, primary first; an entry speaks with the weakest status of its items. */
export function evidenceShown(release: Release, ids: readonly string[]): EvidenceShown[] {
  return ids.flatMap((id) => {
    const entry = release.evidence.find((evidence) => evidence.id === id);
    if (!entry) return [];
    const from = entry.from.map((item) => {
      const source = release.sources.find((candidate) => candidate.id === item.source);
      return {
        source: item.source,
        body: source?.body ?? '',
        title: source?.title ?? '',
        ...(source?.year === undefined ? {} : { year: source.year }),
        ...(source?.edition === undefined ? {} : { edition: source.edition }),
        locator: item.locator,
        grade: item.grade,
        ...(item.strength === undefined ? {} : { strength: item.strength }),
        status: item.status,
        ...(item.note === undefined ? {} : { note: item.note }),
      };
    });
    const weakest = from.reduce<EvidenceStatus>(
      (sofar, item) => (rank(item.status) > rank(sofar) ? item.status : sofar),
      'read',
    );
    return [{ id, statement: entry.statement, status: weakest, from }];
  });
}

/** True where nothing better than memory stands behind a rule. */
export const restsOnMemory = (evidence: readonly EvidenceShown[]): boolean =>
  evidence.every((entry) => entry.from.every((item) => item.status === 'memory'));
