import { canonicalJson, type Release } from '@dwellset/core';
import type { FieldChange, ItemChange, ItemKind } from './shape.ts';

type Fields = Readonly<Record<string, unknown>>;

/** Keys that only words hang on. */
const WORDING = new Set([
  'title',
  'note',
  'because',
  'evidence',
  'hazards',
  'local',
  'positions',
  'local-choice',
  'default',
  'cautious',
  'question',
  'phrases',
  'codings',
  'decimals',
  'advice.summary',
  'advice.detail',
  'advice.suggestions',
  'advice.overrideReasons',
  'intendedUse',
  'users',
  'exclusions',
  'limits-of-set',
  'language',
  'words',
  'status',
  'withdrawn',
]);
const WORDY_KINDS: ReadonlySet<ItemKind> = new Set(['evidence', 'source', 'hazard']);

/** What stands in two releases of one set, item by item, in the order of the second. */
export function itemChanges(before: Release, after: Release): ItemChange[] {
  const common = before.rules.map(({ id }) => id).filter((id) => after.rules.some((rule) => rule.id === id));
  const kinds = itemsOf(before, common);
  return [...itemsOf(after, common)].flatMap(([kind, now]) =>
    changesOf(kind, kinds.get(kind) ?? new Map(), now),
  );
}

function changesOf(
  kind: ItemKind,
  was: ReadonlyMap<string, Fields>,
  now: ReadonlyMap<string, Fields>,
): ItemChange[] {
  const ids = [...now.keys(), ...[...was.keys()].filter((id) => !now.has(id))];
  return ids.flatMap((id): ItemChange[] => {
    const [from, to] = [was.get(id), now.get(id)];
    if (from === undefined) return [{ kind, id, change: 'added', fields: [] }];
    if (to === undefined) return [{ kind, id, change: 'removed', fields: [] }];
    const fields = fieldChanges(kind, from, to);
    return fields.length === 0 ? [] : [{ kind, id, change: 'changed', fields }];
  });
}

function fieldChanges(kind: ItemKind, from: Fields, to: Fields): FieldChange[] {
  return [...new Set([...Object.keys(from), ...Object.keys(to)])].flatMap((field) => {
    const [was, now] = [from[field], to[field]];
    if (sameJson(was, now)) return [];
    return [
      {
        field,
        ...(was === undefined ? {} : { from: was }),
        ...(now === undefined ? {} : { to: now }),
        wording: WORDY_KINDS.has(kind) || WORDING.has(field),
      },
    ];
  });
}

const sameJson = (a: unknown, b: unknown): boolean =>
  a === undefined || b === undefined ? a === b : canonicalJson(a) === canonicalJson(b);

function itemsOf(release: Release, common: readonly string[]): Map<ItemKind, ReadonlyMap<string, Fields>> {
  const byId = <T extends { readonly id: string }>(items: readonly T[], fields: (item: T) => Fields) =>
    new Map(items.map((item) => [item.id, fields(item)] as const));
  const plain = <T extends { readonly id: string }>({ id: _, ...rest }: T): Fields => rest;
  const { title, intendedUse, users, exclusions, limits, language, shape, population, scope } = release;
  const { conclusions, defaultConclusion, effectivePeriod, status, withdrawn } = release;
  return new Map<ItemKind, ReadonlyMap<string, Fields>>([
    [
      'set',
      new Map([
        [
          release.id,
          {
            title,
            intendedUse,
            users,
            exclusions,
            'limits-of-set': limits,
            language,
            shape,
            population,
            scope,
            conclusions: conclusions?.map(({ id }) => id),
            defaultConclusion: defaultConclusion?.id,
            words: [conclusions, defaultConclusion].filter((part) => part !== undefined),
            effectivePeriod,
            status,
            withdrawn,
            // A rule that comes or goes is a change of its own.
            'order of rules': release.rules.map(({ id }) => id).filter((id) => common.includes(id)),
          },
        ],
      ]),
    ],
    ['rule', byId(release.rules, ruleFields)],
    ['condition', new Map(Object.entries(release.conditions).map(([id, condition]) => [id, { condition }]))],
    [
      'local choice',
      byId(release.parameters, ({ id: _, local, ...rest }) => ({ ...rest, 'local-choice': local })),
    ],
    ['table', byId(release.tables, ({ id: _, rows, ...rest }) => ({ ...rest, ...cellsOf(rows) }))],
    [
      'stock',
      new Map(
        Object.entries(release.stock).flatMap(([kind, options]) =>
          options.map(({ id, title: name, facts }) => [`${kind}/${id}`, { title: name, facts }] as const),
        ),
      ),
    ],
    ['fact', byId(release.facts, plain)],
    [
      'code list',
      new Map(
        Object.entries(release.codes).map(([id, list]) => [id, { codes: Object.keys(list), words: list }]),
      ),
    ],
    ['evidence', byId(release.evidence, plain)],
    ['source', byId(release.sources, plain)],
    ['hazard', byId(release.hazards, plain)],
  ]);
}

function ruleFields({ id: _, advice, ...rest }: Release['rules'][number]): Fields {
  // Folding only tidies the page; which advice is shown unfolded still moves with it, so it is no mere wording.
  const ofAdvice = Object.entries(advice ?? {}).map(([key, value]) => [`advice.${key}`, value] as const);
  const off = rest.local?.change === 'switched-off';
  return { ...rest, ...(off && { 'switched off': true }), ...Object.fromEntries(ofAdvice) };
}

/** Cell by cell, so that one changed figure is one change. */
function cellsOf(rows: Release['tables'][number]['rows']): Fields {
  return Object.fromEntries(
    Object.entries(rows).flatMap(([row, cells]) =>
      Object.entries(cells).map(([column, cell]) => [`${row}/${column}`, cell.value] as const),
    ),
  );
}
