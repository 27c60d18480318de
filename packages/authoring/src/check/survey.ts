import type { DocumentKind } from '../documents/kinds.ts';
import type { Library } from '../library/shape.ts';
import { skeleton } from './confusables.ts';
import { Cursor } from './cursor.ts';
import {
  type FactEntry,
  type ParameterEntry,
  readFact,
  readParameter,
  readTable,
  type TableEntry,
} from './entries.ts';
import { kindAt } from './places.ts';

interface CodeListEntry {
  readonly name: string;
  readonly words: ReadonlyMap<string, string>;
}

/** A rule set as far as it can be read. */
export interface SetEntry {
  /** Name of the folder. */
  readonly id: string;
  readonly root: Cursor;
  readonly shape: string | undefined;
  readonly uses: ReadonlySet<string>;
  readonly conditions: ReadonlyMap<string, Cursor>;
  readonly derived: ReadonlyMap<string, FactEntry>;
  readonly conclusions: ReadonlySet<string>;
  /** By file name. */
  readonly rules: ReadonlyMap<string, Cursor>;
  readonly vignettes: ReadonlyMap<string, Cursor>;
  readonly stock: ReadonlyMap<string, Cursor>;
}

/** The documents of one kind, and everything that may be referred to, by id; of two with one id the first stands. */
export interface Survey {
  readonly documents: readonly {
    readonly path: string;
    /** The kind it states, else the one that belongs at its path. */
    readonly kind: DocumentKind | undefined;
    readonly stated: boolean;
    readonly root: Cursor;
  }[];
  ofKind(kind: string): readonly Cursor[];
  readonly facts: ReadonlyMap<string, FactEntry>;
  readonly parameters: ReadonlyMap<string, ParameterEntry>;
  readonly tables: ReadonlyMap<string, TableEntry>;
  readonly topics: ReadonlySet<string>;
  readonly lists: ReadonlyMap<string, CodeListEntry>;
  readonly sources: ReadonlySet<string>;
  readonly evidence: ReadonlySet<string>;
  readonly hazards: ReadonlySet<string>;
  readonly sets: ReadonlyMap<string, SetEntry>;
}

/** `a/b/c.rule.json` → `c` */
export const baseName = (path: string): string => path.slice(path.lastIndexOf('/') + 1).replace(/\..*$/, '');
export const folderOf = (path: string): string => path.split('/')[0]!;

/** Ids are kept by their skeleton, so that one look-alike letter does not make every reference unknown. */
export function indexById<T>(entries: readonly Cursor[], read: (entry: Cursor) => T): Map<string, T> {
  const index = new Map<string, T>();
  for (const entry of entries) {
    const id = entry.at('id').text;
    if (id !== undefined && !index.has(skeleton(id))) index.set(skeleton(id), read(entry));
  }
  return index;
}

export function survey({ documents: parsed }: Pick<Library, 'documents'>): Survey {
  const documents = parsed.map(({ path, kind, source }) => ({
    path,
    kind: kind ?? kindAt(path),
    stated: kind !== undefined,
    root: Cursor.root(source),
  }));
  const ofKind = (kind: string) => documents.filter((d) => d.kind === kind).map(({ root }) => root);
  const entries = (kind: string, key: string) => ofKind(kind).flatMap((root) => root.at(key).items);
  const ids = (kind: string, key: string) => new Set(indexById(entries(kind, key), () => true).keys());
  const choices = ofKind('choices');
  const inTopics = <T>(key: string, read: (entry: Cursor, topic: string) => T): Map<string, T> =>
    new Map(
      choices.flatMap((root) => [...indexById(root.at(key).items, (e) => read(e, topicOf(root)))]).reverse(),
    );
  return {
    documents,
    ofKind,
    facts: indexById(entries('facts', 'facts'), readFact),
    parameters: inTopics('parameters', readParameter),
    tables: inTopics('tables', readTable),
    topics: new Set(choices.map(topicOf)),
    lists: new Map(
      ofKind('codes').flatMap((root) =>
        root.at('lists').entries.map(([name, list]) => [name, { name, words: wordsOf(list) }] as const),
      ),
    ),
    sources: ids('sources', 'sources'),
    evidence: ids('evidence', 'evidence'),
    hazards: ids('hazards', 'hazards'),
    sets: new Map(
      ofKind('rule-set').map((root) => {
        const id = folderOf(root.source.path);
        return [id, readSet(id, root, (kind) => beside(id, ofKind(kind)))] as const;
      }),
    ),
  };
}

const topicOf = (root: Cursor): string => root.at('id').text ?? baseName(root.source.path);

const wordsOf = (list: Cursor): ReadonlyMap<string, string> =>
  new Map(list.entries.map(([code, words]) => [skeleton(code), words.text ?? code] as const));

const textsOf = (list: Cursor): string[] =>
  list.items.flatMap(({ text }) => (text === undefined ? [] : [text]));

const beside = (set: string, roots: readonly Cursor[]): Map<string, Cursor> =>
  new Map(
    roots
      .filter(({ source }) => folderOf(source.path) === set)
      .map((root) => [baseName(root.source.path), root] as const),
  );

function readSet(id: string, root: Cursor, mine: (kind: string) => Map<string, Cursor>): SetEntry {
  const conclusions = [...root.at('conclusions').items, root.at('defaultConclusion')];
  return {
    id,
    root,
    shape: root.at('shape').text,
    uses: new Set(textsOf(root.at('uses'))),
    conditions: new Map(root.at('conditions').entries.map(([name, node]) => [skeleton(name), node] as const)),
    derived: indexById(root.at('derived').items, readFact),
    conclusions: new Set(conclusions.flatMap((c) => c.at('id').text ?? [])),
    rules: mine('rule'),
    vignettes: mine('vignettes'),
    stock: mine('stock'),
  };
}

/** Options by stock list. */
export const stockOf = ({ stock }: Pick<SetEntry, 'stock'>): ReadonlyMap<string, readonly string[]> =>
  new Map(
    [...stock].map(([kind, root]) => [kind, root.at('options').items.flatMap((o) => o.at('id').text ?? [])]),
  );
