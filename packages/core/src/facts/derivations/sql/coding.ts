import type { Fact } from '../../../release/fact.ts';
import { cellOf } from '../coding.ts';
import type { DerivationOf } from '../kinds.ts';
import {
  all,
  any,
  bitsOf,
  column,
  conclusionColumn,
  either,
  firstOf,
  literal,
  maskOf,
  type Printed,
  type SqlNames,
  shares,
} from './print.ts';

/** Codes of the key that lead to the same cell are tested together. */
export function lookup({ lookup }: DerivationOf<'lookup'>, fact: Fact, names: SqlNames): Printed {
  const key = names.fact(lookup.key);
  const bits = bitsOf(key, names);
  const table = names.table(lookup.table);
  const masks = new Map<number | string | boolean | null, number>();
  for (const [code, bit] of bits) {
    const cell = cellOf(table, code, lookup.column);
    masks.set(cell, (masks.get(cell) ?? 0) + bit);
  }
  const gaps = masks.get(null) ?? 0;
  masks.delete(null);
  const mask = column(key.id, 'may');
  const gap = shares(mask, gaps);
  const recorded = column(key.id, 'recorded');
  return {
    ...cells(fact, masks, mask, gaps === 0 ? undefined : gap, names),
    recorded: gaps === 0 ? recorded : either(all([gap, `${recorded} = 3`]), '2', recorded),
    none: any([`${column(key.id, 'none')} = 1`, `(${mask} & ${maskOf(bits) - gaps}) = 0`]),
  };
}

/** What the possible cells allow; anything where there may be no entry. */
function cells(
  fact: Fact,
  masks: ReadonlyMap<number | string | boolean | null, number>,
  mask: string,
  gap: string | undefined,
  names: SqlNames,
): Partial<Printed> {
  const orWhole = (whole: string): (readonly [string, string])[] => (gap ? [[gap, whole]] : []);
  switch (fact.type) {
    case 'number': {
      const rising = [...masks].sort(([a], [b]) => Number(a) - Number(b));
      const first = (order: typeof rising, whole: number): string =>
        firstOf(
          [
            ...orWhole(literal(whole)),
            ...order.map(([cell, bits]) => [shares(mask, bits), literal(Number(cell))] as const),
          ],
          literal(whole),
        );
      const [least, most] = fact.limits ?? [-Infinity, Infinity];
      return { ends: { low: first(rising, least), high: first([...rising].reverse(), most) } };
    }
    case 'boolean':
    case 'code': {
      const bits = bitsOf(fact, names);
      const may = [...masks].map(([cell, of]) =>
        either(shares(mask, of), String(bits.get(String(cell)) ?? 0), '0'),
      );
      return { may: firstOf(orWhole(String(maskOf(bits))), may.length === 0 ? '0' : may.join(' + ')) };
    }
    default:
      return {};
  }
}

export function band({ band }: DerivationOf<'band'>, fact: Fact, names: SqlNames): Printed {
  const side = typeof band.atCut === 'object' ? names.parameter(band.atCut.parameter) : band.atCut;
  const [below, above] = side === 'lower' ? ['<=', '>'] : ['<', '>='];
  const bits = bitsOf(fact, names);
  const reached = new Map<string, string[]>();
  band.codes.forEach((code, index) => {
    const [cut, before] = [band.cuts[index], band.cuts[index - 1]];
    const within = all([
      cut === undefined ? '1 = 1' : `${column(band.of, 'low')} ${below} ${literal(cut)}`,
      before === undefined ? '1 = 1' : `${column(band.of, 'high')} ${above} ${literal(before)}`,
    ]);
    reached.set(code, [...(reached.get(code) ?? []), within]);
  });
  return {
    may: [...reached]
      .map(([code, within]) => either(any(within), String(bits.get(code) ?? 0), '0'))
      .join(' + '),
    recorded: column(band.of, 'recorded'),
    none: `${column(band.of, 'none')} = 1`,
  };
}

export function countCodes(
  { countCodes }: DerivationOf<'countCodes'>,
  _fact: Fact,
  names: SqlNames,
): Printed {
  const { of, in: list } = countCodes;
  const given = 'parameter' in list ? names.parameter(list.parameter) : list;
  const bits = bitsOf(names.fact(of), names);
  const codes = [...new Set(Array.isArray(given) ? given : [])];
  const known = codes.flatMap((code) => bits.get(code) ?? []);
  const count = (mask: string): string =>
    known.map((bit) => either(shares(mask, bit), '1', '0')).join(' + ') || '0';
  const yes = column(of, 'yes');
  return {
    ends: {
      low: count(yes),
      high: `${count(yes)} + ${count(column(of, 'open'))} + ${codes.length - known.length}`,
    },
    recorded: column(of, 'recorded'),
  };
}

/**
 * What another rule set concludes is read from columns of its own, which whoever runs that set supplies: `may`, the
 * mask of possible conclusions in the fact's list (0 where the set is not about this patient), whether it is
 * `settled`, and whether one `stands` by now; else it may be that none comes, and anything is possible.
 */
export function conclusion({ conclusion }: DerivationOf<'conclusion'>, fact: Fact, names: SqlNames): Printed {
  const may = conclusionColumn(conclusion, 'may');
  const full = String(maskOf(bitsOf(fact, names)));
  return {
    may: either(`${conclusionColumn(conclusion, 'stands')} = 1`, may, full),
    recorded: either(`${conclusionColumn(conclusion, 'settled')} = 1`, '3', '2'),
    none: `${may} = 0`,
  };
}
