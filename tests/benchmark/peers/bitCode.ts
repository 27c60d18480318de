import type { Plain, PlainCase, PlainRule, Value } from '../twoValued.ts';

/** What two bits a condition and 32 cases a word can reach where code is generated for the rules at hand. */
export interface BitColumns {
  readonly rows: number;
  /** NaN where it is missing. */
  readonly numbers: ReadonlyMap<string, Float64Array>;
  /** By fact and value: the cases that have it. */
  readonly having: ReadonlyMap<string, Uint32Array>;
  /** By fact: the cases in which it is not missing. */
  readonly known: ReadonlyMap<string, Uint32Array>;
}

const key = (fact: string, value: Value): string => `${fact}=${String(value)}`;

export function bitColumns(cases: readonly PlainCase[]): BitColumns {
  const words = (cases.length + 31) >>> 5;
  const [numbers, having, known] = [
    new Map<string, Float64Array>(),
    new Map<string, Uint32Array>(),
    new Map<string, Uint32Array>(),
  ];
  const put = (bits: Map<string, Uint32Array>, name: string, row: number): void => {
    const own = bits.get(name) ?? new Uint32Array(words);
    own[row >>> 5]! |= 1 << (row & 31);
    bits.set(name, own);
  };
  cases.forEach((given, row) => {
    for (const [fact, value] of Object.entries(given)) {
      put(known, fact, row);
      if (typeof value === 'number') {
        const own = numbers.get(fact) ?? new Float64Array(cases.length).fill(Number.NaN);
        own[row] = value;
        numbers.set(fact, own);
      } else for (const one of typeof value === 'object' ? value : [value]) put(having, key(fact, one), row);
    }
  });
  return { rows: cases.length, numbers, having, known };
}

export interface BitRules {
  /** For each rule the cases in which it holds, and those in which it is open. */
  run(columns: BitColumns): { readonly holds: Uint32Array; readonly open: Uint32Array }[];
}

type Leaf = Extract<Plain, { readonly kind: 'leaf' }>;
type Fill = (sure: Uint32Array, maybe: Uint32Array, columns: BitColumns) => void;

export function bitRules(rules: readonly PlainRule[]): BitRules {
  const leaves = new Map<string, number>();
  const fills: Fill[] = [];
  const place = (leaf: Leaf): number => {
    const name = JSON.stringify(leaf);
    const known = leaves.get(name) ?? fills.push(fillOf(leaf)) - 1;
    leaves.set(name, known);
    return known;
  };
  const run = rules.map(({ condition }) => {
    const used = new Set<number>();
    const note = (leaf: Leaf): number => {
      const at = place(leaf);
      used.add(at);
      return at;
    };
    const [sure, maybe] = [text(condition, true, note), text(condition, false, note)];
    const given = [...used].map((at) => `const s${at} = S[${at}], m${at} = M[${at}];`).join('');
    const body = `${given} for (let w = 0; w < n; w += 1) { const s = ${sure}; holds[w] = s; open[w] = (${maybe}) & ~s; }`;
    return new Function('S', 'M', 'holds', 'open', 'n', body) as (...given: unknown[]) => void;
  });
  return {
    run(columns) {
      const words = (columns.rows + 31) >>> 5;
      const [sure, maybe] = [fills, fills].map((all) => all.map(() => new Uint32Array(words))) as [
        Uint32Array[],
        Uint32Array[],
      ];
      fills.forEach((fill, at) => {
        fill(sure[at]!, maybe[at]!, columns);
      });
      return run.map((rule) => {
        const [holds, open] = [new Uint32Array(words), new Uint32Array(words)];
        rule(sure, maybe, holds, open, words);
        return { holds, open };
      });
    },
  };
}

/** The expression of one bit of a condition: "certainly" or "possibly". */
function text(condition: Plain, certain: boolean, place: (leaf: Leaf) => number): string {
  switch (condition.kind) {
    case 'constant':
      return condition.value ? '-1' : '0';
    case 'leaf':
      return `${certain ? 's' : 'm'}${place(condition)}[w]`;
    case 'not':
      return `~${text(condition.of, !certain, place)}`;
    default: {
      const join = condition.kind === 'all' ? ' & ' : ' | ';
      return `(${condition.of.map((part) => text(part, certain, place)).join(join)})`;
    }
  }
}

const SIGN: Readonly<Record<string, readonly [is: string, isNot: string]>> = {
  lessThan: ['<', '>='],
  lessThanInclusive: ['<=', '>'],
  greaterThan: ['>', '<='],
  greaterThanInclusive: ['>=', '<'],
};

/** Nothing compares with NaN: neither is it so, nor is it not so. */
function fillOf({ fact, operator, value }: Leaf): Fill {
  const sign = SIGN[operator];
  if (sign) {
    const loop = new Function(
      'sure',
      'maybe',
      'have',
      'rows',
      `for (let row = 0, word = 0; row < rows; word += 1) {
        const end = Math.min(row + 32, rows); let s = 0, n = 0;
        for (let bit = 1; row < end; row += 1, bit <<= 1) {
          const v = have[row]; if (v ${sign[0]} ${value}) s |= bit; if (v ${sign[1]} ${value}) n |= bit;
        }
        sure[word] = s; maybe[word] = ~n;
      }`,
    ) as (...given: unknown[]) => void;
    return (sure, maybe, { numbers, rows }) => loop(sure, maybe, numbers.get(fact)!, rows);
  }
  const negated = ['notEqual', 'notIn', 'doesNotContain'].includes(operator);
  const wanted = [value].flat() as Value[];
  return (sure, maybe, { having, known }) => {
    const [all, is] = [wanted.flatMap((one) => having.get(key(fact, one)) ?? []), known.get(fact)!];
    for (let word = 0; word < sure.length; word += 1) {
      let found = 0;
      for (const bits of all) found |= bits[word]!;
      sure[word] = negated ? is[word]! & ~found : found;
      maybe[word] = negated ? ~found : found | ~is[word]!;
    }
  };
}
