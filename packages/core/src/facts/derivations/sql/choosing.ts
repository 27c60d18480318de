import type { Fact } from '../../../release/fact.ts';
import type { DerivationOf } from '../kinds.ts';
import {
  all,
  bitAnd,
  bitOr,
  bitsOf,
  column,
  type Ends,
  either,
  firstOf,
  greatest,
  least,
  literal,
  maskOf,
  type Printed,
  type SqlNames,
} from './print.ts';

/** An operand where it counts; elsewhere a value that does not change what it is joined with. */
type Counted = (id: string, part: string, neutral: string) => string;

const isPresent = (id: string): string => `${column(id, 'none')} = 0`;

/** The extremes of the operands that are not known to have no value. */
function extreme(ids: readonly string[], name: 'lowest' | 'highest', fact: Fact, names: SqlNames): Printed {
  const counted: Counted = (id, part, neutral) => either(isPresent(id), column(id, part), neutral);
  const [pick, neutral] = name === 'lowest' ? [least, literal(Infinity)] : [greatest, literal(-Infinity)];
  const picked = (part: string): string => pick(ids.map((id) => counted(id, part, neutral)));
  const ends: Ends = { low: picked('low'), high: picked('high') };
  return {
    ends,
    ...(fact.type === 'date-time' ? { days: { low: picked('day_low'), high: picked('day_high') } } : {}),
    ...(fact.type === 'date-time' && names.hourRead(fact.id) ? { hour: hourOfExact(ids, ends) } : {}),
    recorded: bitAnd(ids.map((id) => counted(id, 'recorded', '3'))),
    none: all(ids.map((id) => `${column(id, 'none')} = 1`)),
  };
}

/** Where the extreme is exact, some operand is exactly that instant. */
const hourOfExact = (ids: readonly string[], { low, high }: Ends): string =>
  firstOf(
    ids.map((id) => [
      all([
        isPresent(id),
        `${column(id, 'low')} = ${low}`,
        `${column(id, 'low')} = ${column(id, 'high')}`,
        `${low} = ${high}`,
      ]),
      column(id, 'hour'),
    ]),
    'NULL',
  );

export const lowest = ({ lowest }: DerivationOf<'lowest'>, fact: Fact, names: SqlNames): Printed =>
  extreme(lowest, 'lowest', fact, names);
export const highest = ({ highest }: DerivationOf<'highest'>, fact: Fact, names: SqlNames): Printed =>
  extreme(highest, 'highest', fact, names);

/**
 * An operand counts where it may stand in the record and no earlier one certainly does; the value may be that of any
 * operand that counts.
 */
export function firstRecorded(
  { firstRecorded: ids }: DerivationOf<'firstRecorded'>,
  fact: Fact,
  names: SqlNames,
): Printed {
  const counts = ids.map((id, index) =>
    all([
      `${column(id, 'recorded')} <> 0`,
      ...ids.slice(0, index).map((earlier) => `${column(earlier, 'recorded')} <> 3`),
    ]),
  );
  const each = (value: (id: string) => string, neutral: string): string[] =>
    ids.map((id, index) => either(counts[index]!, value(id), neutral));
  const hull = (low: string, high: string): Ends => ({
    low: least(each((id) => column(id, low), literal(Infinity))),
    high: greatest(each((id) => column(id, high), literal(-Infinity))),
  });
  const instant = (ends: Ends): Partial<Printed> => ({
    days: hull('day_low', 'day_high'),
    ...(names.hourRead(fact.id) ? { hour: hourOf(ends) } : {}),
  });
  const hourOf = ({ low, high }: Ends): string =>
    either(
      `${low} = ${high}`,
      firstOf(
        ids.map((id, index) => [counts[index]!, column(id, 'hour')]),
        'NULL',
      ),
      'NULL',
    );
  const value = (): Partial<Printed> => {
    switch (fact.type) {
      case 'number':
      case 'date':
        return { ends: hull('low', 'high') };
      case 'date-time': {
        const ends = hull('low', 'high');
        return { ends, ...instant(ends) };
      }
      case 'boolean':
      case 'code':
        return { may: bitOr(each((id) => column(id, 'may'), '0')) };
      case 'codes':
        return { answers: mergedAnswers(each, String(maskOf(bitsOf(fact, names)))) };
      case 'text':
      case 'list':
        return {};
    }
  };
  return {
    ...value(),
    recorded: bitOr(ids.map((id) => column(id, 'recorded'))),
    none: all(ids.map((id) => `${column(id, 'recorded')} = 0`)),
  };
}

/** A code is settled where every operand that counts settles it alike. */
function mergedAnswers(
  each: (value: (id: string) => string, neutral: string) => string[],
  full: string,
): { yes: string; open: string } {
  const yes = bitAnd(each((id) => column(id, 'yes'), full));
  const no = bitAnd(each((id) => `(${full} - ${column(id, 'yes')} - ${column(id, 'open')})`, full));
  return { yes, open: `(${full} - ${yes} - ${no})` };
}
