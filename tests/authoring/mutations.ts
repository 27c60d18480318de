import fc from 'fast-check';

type Path = readonly (string | number)[];

export interface Mutated {
  readonly value: unknown;
  /** What was changed where, for the report of a failure. */
  readonly changes: readonly string[];
}

/** Values that are right somewhere and wrong elsewhere, and those at the edges of the shapes. */
const REPLACEMENTS: readonly unknown[] = [
  null,
  true,
  0,
  -1,
  1.5,
  1e308,
  '',
  ' ',
  'kebab-name',
  'group.fact',
  'Group.Fact',
  'a.b/c/d',
  'urn:dwellset:rule:1',
  '2030-01-01',
  '2030-01-01T00:00:00Z',
  '2030-01-01T00:00',
  'P1DT2H',
  'P',
  '0.1.0',
  '01.1.0',
  'naïve-é',
  'line\nbreak',
  '🙂',
  'f'.repeat(64),
  [],
  ['kebab-name'],
  [0, 1],
  [1, 2, 3],
  {},
  { fact: 'group.fact', operator: 'equal', value: { parameter: 'group.fact' } },
  { all: [] },
  { all: [{ not: { condition: 'named' } }], any: [] },
  { value: 3, unit: 'd' },
  { absent: 'asked-unknown' },
  { absent: 'lost' },
  { yes: ['kebab-name'] },
];
const KEYS = ['note', 'id', 'extra', 'value', 'facts', 'locked', 'Kebab', 'group.fact', ''];

function paths(value: unknown, at: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [at];
  const inner = Array.isArray(value) ? [...value.entries()] : Object.entries(value);
  return [at, ...inner.flatMap(([key, child]) => paths(child, [...at, key]))];
}

const step = fc.record({
  where: fc.nat(),
  how: fc.constantFrom('replace', 'replace', 'remove', 'add', 'swap', 'repeat'),
  what: fc.constantFrom(...REPLACEMENTS),
  key: fc.constantFrom(...KEYS),
});

/** One to three changes anywhere in a document: a value replaced, removed, added, taken from elsewhere or repeated. */
export const mutated = (original: unknown): fc.Arbitrary<Mutated> =>
  fc.array(step, { minLength: 1, maxLength: 3 }).map((steps) => {
    const root = { document: structuredClone(original) };
    const changes = steps.map(({ where, how, what, key }) => {
      const all = paths(root.document);
      const path: Path = ['document', ...all[where % all.length]!];
      const other = ['document', ...all[(where * 7 + 3) % all.length]!];
      apply(root, path, how, how === 'swap' ? structuredClone(at(root, other)) : structuredClone(what), key);
      return `${how} ${path.join('/')}`;
    });
    return { value: root.document, changes };
  });

const at = (root: unknown, path: Path): unknown =>
  path.reduce<unknown>((value, key) => (value as Record<string | number, unknown>)[key], root);

function apply(root: object, path: Path, how: string, what: unknown, key: string): void {
  const parent = at(root, path.slice(0, -1)) as Record<string | number, unknown>;
  const last = path.at(-1)!;
  const value = parent[last];
  if (how === 'remove' && path.length > 1) {
    if (Array.isArray(parent)) parent.splice(Number(last), 1);
    else delete parent[last];
  } else if (how === 'add' && typeof value === 'object' && value !== null) {
    if (Array.isArray(value)) value.push(what);
    else (value as Record<string, unknown>)[key] = what;
  } else if (how === 'repeat' && Array.isArray(parent)) parent.push(structuredClone(value));
  else parent[last] = what;
}
