import { buildRelease, caseOf, type Library, type LibrarySet, readDocument } from '@dwellset/authoring';
import type { Case, CodeList } from '@dwellset/core';
import type { VignettesDocument } from '../draft/draft.ts';
import type { Files } from './documents.ts';
import type { Dictionary, Opened, PublishedSet, Row } from './shapes.ts';

const values = <T>(index: ReadonlyMap<string, { readonly value: T }>): T[] =>
  [...index.values()].map(({ value }) => value);

function dictionaryOf(library: Library): Dictionary {
  const derived = values(new Map([...library.sets].map(([id, { ruleSet }]) => [id, ruleSet]))).flatMap(
    (set) => set.derived,
  );
  const groups = library.documents
    .filter(({ kind, sound }) => kind === 'facts' && sound)
    .map(({ source }) => source.value as { group: string; title: string; order: number })
    .sort((a, b) => a.order - b.order);
  const codes: Record<string, CodeList> = {};
  for (const [name, { value }] of library.codes) codes[name] = value;
  return {
    facts: [...values(library.facts), ...derived],
    groups: groups.map(({ group, title }) => ({ id: group, title })),
    codes,
    parameters: values(library.parameters).map((parameter) => ({ ...parameter, value: parameter.default })),
    tables: values(library.tables),
    evidence: values(library.evidence),
    sources: values(library.sources),
  };
}

/** Sets in the order in which a catheter meets them: those that others read come first. */
export function openedOf(library: Library): Opened {
  const sets = [...library.sets.values()].flatMap((set): PublishedSet[] => {
    const { release, digest } = buildRelease(library, set.id);
    if (release === undefined || digest === undefined) return [];
    const texts = Object.fromEntries([...set.rules].map(([id, { document }]) => [id, document.source.text]));
    return [{ id: set.id, release, digest, texts, uses: set.ruleSet.value.uses }];
  });
  const hospitals = [...library.hospitals.values()];
  return {
    sets,
    dictionary: dictionaryOf(library),
    amendments: hospitals.flatMap(({ id, amendment }) =>
      amendment
        ? [{ hospital: id, name: amendment.value.organisation, text: amendment.document.source.text }]
        : [],
    ),
    cases: hospitals.flatMap(({ cases }) =>
      [...cases].map(([name, { document }]) => ({ name, text: document.source.text })),
    ),
  };
}

export interface Patient extends Row {
  readonly case: Case;
}

/** The author's own patients of a set, then the published ones in the order of its rules. */
export function patientsOf(
  published: Iterable<readonly [string, VignettesDocument]>,
  own: VignettesDocument | undefined,
): Patient[] {
  const of = (rule: string, { base, vignettes }: VignettesDocument, isOwn: boolean): Patient[] =>
    vignettes.map((vignette) => ({
      key: `${rule}/${vignette.id}`,
      rule,
      title: vignette.title,
      own: isOwn,
      case: caseOf(base, vignette),
    }));
  return [
    ...(own ? of('own', own, true) : []),
    ...[...published].flatMap(([rule, document]) => of(rule, document, false)),
  ];
}

/** What stands in the files of a set's invented patients, by rule, in the order of its rules. */
export function vignettesIn(set: LibrarySet, files: Files): [string, VignettesDocument][] {
  const ofRule = new Map(
    [...files].flatMap(([path, text]) => {
      const rule = new RegExp(`^${set.id}/(.+)\\.vignettes\\.json$`).exec(path)?.[1];
      const { kind, sound, source } = readDocument(path, text);
      return rule !== undefined && kind === 'vignettes' && sound
        ? [[rule, source.value as VignettesDocument] as const]
        : [];
    }),
  );
  const order = [...new Set([...set.rules.keys(), ...ofRule.keys()])];
  return order.flatMap((rule) => (ofRule.has(rule) ? [[rule, ofRule.get(rule)!]] : []));
}
