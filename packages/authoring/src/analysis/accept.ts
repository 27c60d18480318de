import { below, placeAt } from '../coverage/places.ts';
import type { Library } from '../library/shape.ts';
import type { Finding, SetAnalysis, StaleAcceptance } from './shape.ts';

export interface Accepted {
  readonly findings: readonly Finding[];
  readonly stale: readonly StaleAcceptance[];
}

const nameOf = (kind: string, of: readonly string[]): string => [kind, ...of].join(' ');

/** Whether nothing is found but what is accepted, and nothing is accepted but what is found. */
export const isSettled = ({ refused, findings, stale }: SetAnalysis): boolean =>
  refused === undefined && stale.length === 0 && findings.every(({ accepted }) => accepted !== undefined);

/** Marks what somebody has accepted. An acceptance of what is not found, or of what it was before, is stale. */
export function accept(library: Library, set: string, findings: readonly Finding[]): Accepted {
  const document = library.accepted.get(set);
  if (document === undefined) return { findings, stale: [] };
  const found = new Map(findings.map((finding) => [nameOf(finding.kind, finding.of), finding]));
  const marked = new Map<string, NonNullable<Finding['accepted']>>();
  const stale = document.value.accepted.flatMap(
    ({ finding: kind, of, digest, reason }, index): StaleAcceptance[] => {
      const place = placeAt(below(document, 'accepted', index));
      const name = nameOf(kind, of);
      const finding = found.get(name);
      if (finding === undefined || marked.has(name)) return [{ kind, of, place, why: 'not-found' }];
      if (finding.digest !== digest) return [{ kind, of, place, why: 'changed', digest: finding.digest }];
      marked.set(name, { reason, place });
      return [];
    },
  );
  return {
    findings: findings.map((finding) => {
      const accepted = marked.get(nameOf(finding.kind, finding.of));
      return accepted ? { ...finding, accepted } : finding;
    }),
    stale,
  };
}
