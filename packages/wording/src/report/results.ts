import { placeWords } from '../listings/diagnostic.ts';
import type { VignetteShown } from '../listings/vignettes.ts';
import { counted, listed } from '../words.ts';
import type { ReportEntry, ReportedGate, ReportedSet, ReportPart, ReportShown, State } from './shown.ts';

/** More would be read by nobody; how many there are stands beside them. */
const MOST = 30;

const GATE_WORDS: Readonly<Record<ReportedGate['outcome'], string>> = {
  passed: 'passed',
  accepted: 'accepted in spite of what was found',
  refused: 'refused',
  'not-run': 'not run for this report',
};

const some = (lines: readonly string[]): string[] => [
  ...lines.slice(0, MOST),
  ...(lines.length > MOST ? [`and ${lines.length - MOST} more`] : []),
];

export const vignetteFailed = ({ mismatches, changedBy }: VignetteShown): boolean =>
  mismatches.length > 0 && changedBy === undefined;

/** What was expected and what came out, in one line. */
export const mismatchWords = ({ mismatches }: VignetteShown): string =>
  mismatches
    .map(
      ({ what, expected, received }) => `${what}: expected ${said(expected)}, came out as ${said(received)}`,
    )
    .join('; ');

const said = (value: unknown): string =>
  value === null || value === undefined
    ? 'nothing'
    : typeof value === 'string'
      ? value
      : JSON.stringify(value);

const sentence = (text: string): string => (/[.!?]$/.test(text) ? text : `${text}.`);

const vignetteName = ({ title, set, id }: VignetteShown): string => `${title} (${set}/${id})`;

/** Everything that somebody still has to answer for: it stands first. */
export function openPart({ sets, findings, withdrawals }: ReportShown): ReportPart {
  const gates = sets.flatMap(({ release, gates: own }) =>
    own
      .filter(({ outcome }) => outcome === 'refused' || outcome === 'accepted' || outcome === 'not-run')
      .map((gate) => gateEntry(gate, `${release.id} · ${gate.gate}`)),
  );
  const failed = sets.flatMap(({ vignettes }) => vignettes.filter(vignetteFailed));
  const taken = sets.flatMap(({ release: { id, version } }) =>
    withdrawals.filter((one) => one.id === id && one.version === version),
  );
  const entries: ReportEntry[] = [
    ...taken.map(
      ({ id, version, date, approverRole, reason, replacement }): ReportEntry => ({
        label: `${id} ${version}`,
        title: 'Withdrawn',
        state: 'refused',
        lines: [
          `On ${date}, ${approverRole}: ${reason}`,
          replacement === undefined ? 'No version is named to use instead.' : `Use ${replacement} instead.`,
        ],
      }),
    ),
    ...failed.slice(0, MOST).map(
      (result): ReportEntry => ({
        label: placeWords(result),
        title: vignetteName(result),
        state: 'refused',
        lines: [mismatchWords(result)],
      }),
    ),
    ...(failed.length > MOST
      ? [{ label: 'vignettes', lines: [`and ${counted(failed.length - MOST, 'more vignette')} that failed`] }]
      : []),
    ...sets.flatMap(changedEntry),
    ...gates,
    ...findings.map(
      (one): ReportEntry => ({
        label: placeWords(one),
        title: `${one.severity}: ${one.code}`,
        ...(one.severity === 'error' && { state: 'refused' as const }),
        lines: [one.hint === undefined ? one.message : `${one.message}; ${one.hint}`],
      }),
    ),
  ];
  return {
    id: 'open',
    title: 'Open findings',
    opening: openingWords(sets, entries.length),
    entries,
  };
}

/** Only what was looked at can be without a finding. */
function openingWords(sets: ReportShown['sets'], entries: number): string {
  const unheld = sets.filter(({ gates }) => gates.length === 0).length > 0;
  const gates = unheld
    ? ' No gate of a release was run for this report: they are run on what is published.'
    : '';
  if (entries > 0) return `What somebody still has to answer for.${gates}`;
  if (sets.some(({ vignettes }) => vignettes.length === 0))
    return `Nothing was found, and not every set has vignettes.${gates}`;
  return unheld
    ? `No vignette failed.${gates}`
    : 'Nothing is open: every gate was run and passed, every vignette came out as it must.';
}

/** Nobody has said yet that what the amendment brings about is what the hospital wants. */
function changedEntry({ release, vignettes }: ReportedSet): ReportEntry[] {
  const changed = vignettes.filter(({ changedBy }) => changedBy !== undefined);
  if (changed.length === 0) return [];
  const items = (one: VignetteShown): string =>
    listed(
      (one.changedBy ?? []).map(({ item }) => item),
      'and',
    );
  return [
    {
      label: release.id,
      title: `${counted(changed.length, 'published vignette')} changed by local policy: is this what is wanted?`,
      lines: some(changed.map((one) => `${vignetteName(one)}, by ${items(one)}: ${mismatchWords(one)}`)),
    },
  ];
}

function gateEntry(gate: ReportedGate, label: string): ReportEntry {
  const { outcome } = gate;
  const found = outcome === 'not-run' ? [] : gate.findings;
  const reason = outcome === 'not-run' ? undefined : gate.reason;
  return {
    label,
    title: GATE_WORDS[outcome],
    state: outcome,
    lines: [...(reason === undefined ? [] : [`Reason: ${reason}`]), ...some(found)],
  };
}

/** Gates and counts, set by set. */
export const resultsPart = ({ sets }: ReportShown): ReportPart => ({
  id: 'results',
  title: 'Results',
  opening: 'What the rules were held to.',
  entries: sets.flatMap(({ release, gates, vignettes }): ReportEntry[] => [
    {
      label: release.id,
      title: release.title,
      ...(vignettes.length > 0 && controlState(vignettes)),
      lines: [countWords(vignettes)],
    },
    ...gates.map((gate) => ({ ...gateEntry(gate, gate.gate), lines: [] })),
  ]),
});

function countWords(results: readonly VignetteShown[]): string {
  const failed = results.filter(vignetteFailed).length;
  const changed = results.filter(({ changedBy }) => changedBy !== undefined).length;
  const parts = [
    ...(failed === 0 ? [] : [`${failed} not as expected`]),
    ...(changed === 0 ? [] : [`${changed} changed by local policy`]),
  ];
  if (results.length === 0) return 'No vignette was run.';
  return `${counted(results.length, 'vignette')}: ${parts.length === 0 ? 'all as expected' : parts.join(', ')}.`;
}

/** Filled only where every control was run and came out as published; what a hospital changed is for it to judge. */
function controlState(results: readonly (VignetteShown | undefined)[]): { readonly state?: State } {
  if (results.some((one) => one && vignetteFailed(one))) return { state: 'refused' };
  if (results.some((one) => one === undefined)) return { state: 'not-run' };
  return results.some((one) => one?.changedBy) ? {} : { state: 'passed' };
}

/** Risks, and whether the invented cases that hold each down came out. */
export function hazardsPart({ sets }: ReportShown): ReportPart | undefined {
  const results = new Map(
    sets.flatMap(({ vignettes }) => vignettes.map((one) => [`${one.set}/${one.id}`, one])),
  );
  const hazards = new Map(sets.flatMap(({ release }) => release.hazards.map((one) => [one.id, one])));
  if (hazards.size === 0) return undefined;
  const controlWords = (name: string): string => {
    const found = results.get(name);
    if (found === undefined) return `${name}: not run for this report`;
    return `${vignetteName(found)}: ${vignetteFailed(found) ? 'failed' : found.changedBy ? 'changed by local policy' : 'as expected'}`;
  };
  return {
    id: 'hazards',
    title: 'Hazards',
    opening: 'What can go wrong, and the invented cases that show that a rule stands against it.',
    entries: [...hazards.values()].map(({ id, title, effect, harm, residual, owner, status, controls }) => ({
      label: id,
      title,
      ...controlState(controls.map((name) => results.get(name))),
      lines: [
        `${sentence(effect)} ${sentence(harm)}`,
        `With controls: severity ${residual.severity.toLowerCase()}, likelihood ${residual.likelihood.toLowerCase()}, risk ${residual.risk} of 5. Owner: ${owner}, ${status}.`,
        ...controls.map(controlWords),
      ],
    })),
  };
}

export const digestsPart = ({ sets }: ReportShown): ReportPart => ({
  id: 'digests',
  title: 'Digests',
  opening: 'SHA-256 of each release: it changes with every word that could reach a patient.',
  entries: sets.map(({ release, digest, before }: ReportedSet) => ({
    label: `${release.id} ${release.version}`,
    lines: [
      digest,
      ...(release.amendment ? [`base ${release.amendment.base.digest}`] : []),
      ...(before && !release.amendment ? [`compared with ${before.version}`] : []),
    ],
  })),
});
