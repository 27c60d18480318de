import type { Release } from '@dwellset/core';
import { adoptedWords } from '../assessment/header.ts';
import { changeWords } from '../assessment/local.ts';
import { comparisonParts } from '../compare/text.ts';
import { standingWords } from '../html/handbook/set.ts';
import { upperFirst, wordsOf } from '../words.ts';
import { digestsPart, hazardsPart, openPart, resultsPart } from './results.ts';
import type { ReportContent, ReportEntry, ReportPart, ReportShown } from './shown.ts';

type LocalChange = NonNullable<Release['amendment']>['changes'][number];

/** A cell of a table or a rule by its title; of a parameter the change itself says it. */
function itemTitle({ item }: LocalChange, { id, rules, tables }: Release): { readonly title?: string } {
  const table = tables.find((one) => one.id === item.split('/')[0]);
  if (table) return { title: `${upperFirst(table.title)} (${item})` };
  const rule = rules.find((one) => one.id === item);
  return rule ? { title: `"${rule.title}" (${id}/${item})` } : {};
}

/** What a hospital changed, each once, with its reason. */
function amendmentPart({ sets }: ReportShown): ReportPart | undefined {
  const amended = sets.flatMap(({ release }) =>
    release.amendment ? [{ release, record: release.amendment }] : [],
  );
  const [first] = amended;
  if (first === undefined) return undefined;
  const seen = new Set<string>();
  const entries = amended.flatMap(({ release, record }) =>
    record.changes.flatMap((change): ReportEntry[] => {
      const said = changeWords(change, { words: wordsOf([release]) });
      // A choice counts in every set that uses it and is recorded in each.
      const key = `${change.change === 'set' ? '' : release.id} ${change.item} ${said}`;
      if (seen.has(key)) return [];
      seen.add(key);
      return [{ label: release.id, ...itemTitle(change, release), lines: [upperFirst(said)] }];
    }),
  );
  const { organisation, approverRole, date, version } = first.record;
  return {
    id: 'amendment',
    title: 'Local amendment',
    opening: `Version ${version} by ${organisation}, ${approverRole}, ${date}. The rules as published stay as they are; these changes stand on top of them.`,
    entries,
  };
}

/** Each comparison as minutes: what decides, what came of it, how it was tried. */
function comparisonPart({ sets }: ReportShown): ReportPart | undefined {
  const compared = sets.flatMap((set) => (set.comparison ? [{ ...set, comparison: set.comparison }] : []));
  if (compared.length === 0) return undefined;
  return {
    id: 'comparison',
    title: 'What changed',
    opening:
      'Beside the release before it, or what is published. Smallest cases are invented; the wards are too.',
    entries: compared.flatMap(({ release, before, comparison }) =>
      comparisonParts(comparison, [release, ...(before ? [before] : [])]).map(([title = '', ...lines]) => ({
        label: release.id,
        title: title.trim(),
        lines: lines.map((line) => line.trim()),
      })),
    ),
  };
}

/** Everything that a committee is shown, in the order in which it is asked. */
export function reportContent(shown: ReportShown): ReportContent {
  const { sets, adoption, withdrawals } = shown;
  const digests = new Map(sets.map(({ release, digest }) => [release.id, digest]));
  const known = { digests, withdrawals, ...(adoption && { adoption }) };
  const organisation =
    adoption?.organisation ?? sets.find(({ release }) => release.amendment)?.release.amendment?.organisation;
  const [only, ...more] = sets;
  const named = only && more.length === 0 ? `${only.release.title} ${only.release.version}` : undefined;
  const title = `Report on ${organisation === undefined ? (named ?? 'the rules as published') : `the rules of ${organisation}`}`;
  const optional = [amendmentPart(shown), comparisonPart(shown)];
  return {
    title,
    language: only?.release.language ?? 'en',
    about: [
      adoptedWords(adoption),
      ...sets.map(
        ({ release }) =>
          `${release.title} (${release.id}) ${release.version}: ${standingWords(release, known)}`,
      ),
    ],
    parts: [openPart(shown), ...optional, resultsPart(shown), hazardsPart(shown), digestsPart(shown)].flatMap(
      (part) => part ?? [],
    ),
  };
}
