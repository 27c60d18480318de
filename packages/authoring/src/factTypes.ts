import type { CodeList, Fact } from '@dwellset/core';
import type { Library } from './library/shape.ts';

const HEAD = `// Generated from the fact dictionary. Do not edit: a misspelt fact, code or unit does not compile.

/** Why a value is not there (FHIR data-absent reasons). */
export type Absent = { readonly absent: AbsentReason };
export type AbsentReason = import('@dwellset/core').AbsentReason;

interface Observed {
  /** When it was observed; ISO 8601 with offset. */
  readonly at?: string;
  readonly from?: string;
  readonly confirmed?: boolean;
}

/** A value as it is, or with when and where it was observed; \`null\`: somebody looked and found nothing. */
export type Value<T> = T | null | Absent | (Observed & { readonly value: T });

/** A number always states its unit. */
export type Quantity<U extends string> =
  | null
  | Absent
  | (Observed & { readonly value: number; readonly unit: U; readonly comparator?: '<' | '<=' | '>' | '>=' });

/** A plain count or share. */
export type Count =
  | Value<number>
  | (Observed & { readonly value: number; readonly unit?: '1'; readonly comparator?: '<' | '<=' | '>' | '>=' });

/** Codes that are present, or answers code by code. */
export type Answers<C extends string> = readonly C[] | { readonly yes?: readonly C[]; readonly no?: readonly C[] };

/** The entries of a list; \`complete: false\` where there may be others. An empty list says that there are none. */
export type Entries<I> =
  | null
  | Absent
  | readonly I[]
  | { readonly items: readonly I[]; readonly complete?: boolean };
`;

/** TypeScript of the fact dictionary: the code lists as unions and one interface of typed facts. */
export function generateFactTypes(library: Library): string {
  const facts = [...library.facts.values()].map(({ value }) => value);
  const typed = facts.flatMap((fact) => [fact, ...Object.values(fact.item ?? {})]);
  const used = new Set(typed.flatMap(({ codes }) => (codes === undefined ? [] : [codes])));
  const lists = [...library.codes].filter(([name]) => used.has(name));
  return [
    HEAD,
    ...lists.map(([name, { value }]) => codeType(name, value)),
    '/** The facts of one case; what is not stated has not been supplied. */',
    // A type, not an interface: only a type fits where the core takes facts of any name.
    'export type CaseFacts = {',
    ...facts.filter(({ id }) => !id.startsWith('option.')).flatMap((fact) => [comment(fact), field(fact)]),
    '};',
    '',
    '/** A case whose facts are checked by the compiler. */',
    "export type TypedCase = Omit<import('@dwellset/core').Case, 'facts'> & { readonly facts: CaseFacts };",
    '',
  ].join('\n');
}

/** `urology-history` → `UrologyHistory`; a name that starts with a digit gets a letter before it. */
const typeName = (list: string): string =>
  list
    .split('-')
    .map((part) => part.charAt(0).toUpperCase() + part.slice(1))
    .join('')
    .replace(/^(?=\d)/, 'N');

function codeType(name: string, list: CodeList): string {
  const codes = Object.keys(list);
  const union = codes.length === 0 ? 'never' : codes.map((code) => `\n  | ${quoted(code)}`).join('');
  return `export type ${typeName(name)} =${codes.length === 0 ? ' ' : ''}${union};\n`;
}

/** A text must not end the comment it stands in. */
const safe = (text: string): string => text.replaceAll('*/', '*\u200b/');

/** The question, so that an editor shows it. */
const comment = ({ question, from }: Fact): string =>
  `  /** ${safe(question)}${from ? ' Follows from other facts where it is not stated.' : ''} */`;

/** What says how a value is typed: a fact, or a field of a list. */
type Described = Pick<Fact, 'type' | 'unit' | 'codes' | 'item'>;

const field = (fact: Fact): string => `  readonly ${quoted(fact.id)}?: ${valueType(fact)};`;

function valueType({ type, unit, codes, item }: Described): string {
  switch (type) {
    case 'number':
      return unit === undefined || unit === '1' ? 'Count' : `Quantity<${quoted(unit)}>`;
    case 'boolean':
      return 'Value<boolean>';
    case 'code':
      return `Value<${codes === undefined ? 'string' : typeName(codes)}>`;
    case 'codes':
      return `Value<Answers<${codes === undefined ? 'string' : typeName(codes)}>>`;
    case 'date':
    case 'date-time':
    case 'text':
      return 'Value<string>';
    case 'list':
      return `Entries<${entryType(item ?? {})}>`;
  }
}

/** One entry: every field may be left out, since an entry that lacks one still counts. */
const entryType = (item: NonNullable<Fact['item']>): string =>
  [
    '{',
    ...Object.entries(item).flatMap(([id, one]) => [
      `    /** ${safe(one.title)}.${one.from ? ' Follows from other fields where it is not stated.' : ''} */`,
      `    readonly ${quoted(id)}?: ${valueType(one)};`,
    ]),
    '  }',
  ].join('\n');

const quoted = (text: string): string => `'${text.replaceAll('\\', '\\\\').replaceAll("'", "\\'")}'`;
