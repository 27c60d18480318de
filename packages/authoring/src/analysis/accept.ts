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

/**
 * Marks what somebody has accepted: what the published set accepts, and what a hospital accepts of its amended one. An
 * acceptance of what is not found, or of what it was before, is stale; of the published ones a hospital hears nothing.
 */
export function accept(
  { accepted, hospitals }: Library,
  set: string,
  findings: readonly Finding[],
  hospital: string | undefined,
): Accepted {
  const published = accepted.get(set);
  const own = hospital === undefined ? published : hospitals.get(hospital)?.accepted.get(set);
  const found = new Map(findings.map((finding) => [nameOf(finding.kind, finding.of), finding]));
  const marked = new Map<string, NonNullable<Finding['accepted']>>();
  const stale: StaleAcceptance[] = [];
  for (const document of new Set([own, published])) {
    document?.value.accepted.forEach(({ finding: kind, of, digest, reason }, index) => {
      const place = placeAt(below(document, 'accepted', index));
      const name = nameOf(kind, of);
      const finding = found.get(name);
      if (finding?.digest === digest && !marked.has(name)) marked.set(name, { reason, place });
      else if (document !== own) return;
      else if (finding === undefined || marked.has(name)) stale.push({ kind, of, place, why: 'not-found' });
      else stale.push({ kind, of, place, why: 'changed', digest: finding.digest });
    });
  }
  return {
    findings: findings.map((finding) => {
      const by = marked.get(nameOf(finding.kind, finding.of));
      return by ? { ...finding, accepted: by } : finding;
    }),
    stale,
  };
}
