import {
  type Bounds,
  type Case,
  compile,
  type DerivationFault,
  type Dictionary,
  evaluate,
  type Fact,
  kindOf,
  type Parameter,
  type Reading,
  type Release,
  type Table,
  word,
} from '@dwellset/core';
import { makeRelease } from '../../../reference/release.ts';

export { makeFact as fact } from '../../../reference/release.ts';

export type Parts = Partial<Pick<Release, 'codes' | 'parameters' | 'tables'>>;

export const parameter = (
  id: string,
  parts: Pick<Parameter, 'type' | 'value'> & Partial<Parameter>,
): Parameter => ({
  id,
  title: id,
  default: parts.value,
  cautious: 'neither',
  positions: [],
  ...parts,
});

const AS_OF = '2026-11-25T09:00:00Z';

/** Every fact of a case, through a release that does nothing but read them. */
function readAll(facts: readonly Fact[], parts: Parts, patient: Partial<Case>): ReadonlyMap<string, Reading> {
  const plan = compile([makeRelease({ ...parts, facts, rules: [] })], { allow: ['draft'] });
  return evaluate(plan, { asOf: AS_OF, timeZone: 'Europe/London', facts: {}, ...patient }).readings;
}

/** What a reading says, short enough to stand in a table: ends or codes, recorded, cause and marks. */
function shown(reading: Reading | undefined): readonly unknown[] {
  if (reading === undefined) throw new Error('not read');
  const { bounds, recorded, cause, none, assumed } = reading;
  const marks = [...(cause ? [cause] : []), ...(none ? ['none'] : []), ...(assumed ? ['assumed'] : [])];
  return [...valuesOf(bounds), word(recorded), ...marks];
}

function valuesOf(bounds: Bounds): readonly unknown[] {
  switch (bounds.kind) {
    case 'interval':
      return [bounds.low, bounds.high];
    case 'possible':
      return [bounds.possible.join(' ')];
    case 'answers':
      return [[...bounds.answers].map(([code, answer]) => `${code}=${word(answer)}`).join(' ')];
    case 'text':
      return [bounds.text];
    case 'list':
      return [bounds.items.length, bounds.complete];
  }
}

/** The reading of one derived fact beside its operands. */
export const readOne = (
  of: Fact,
  operands: readonly Fact[],
  parts: Parts,
  patient: Partial<Case>,
): readonly unknown[] => shown(readAll([...operands, of], parts, patient).get(of.id));

/** What the check of a derivation's kind says of it. */
export function faultsOf(of: Fact, facts: readonly Fact[], parts: Parts = {}): readonly DerivationFault[] {
  const dictionary: Dictionary = {
    fact: (id) => facts.find((one) => one.id === id),
    parameter: (id) => parts.parameters?.find((one) => one.id === id),
    table: (id) => parts.tables?.find((one: Table) => one.id === id),
  };
  if (!of.from) throw new Error(`${of.id} is not derived`);
  return kindOf(of.from).check(of.from, of, dictionary);
}

/** What would have to be answered to make a derived fact exact. */
export function asksOf(
  of: Fact,
  operands: readonly Fact[],
  parts: Parts,
  patient: Partial<Case>,
): readonly string[] {
  if (!of.from) throw new Error(`${of.id} is not derived`);
  const readings = readAll([...operands, of], parts, patient);
  const asOf = Date.parse(patient.asOf ?? AS_OF);
  return kindOf(of.from).asks(of.from, {
    reading: (id) => {
      const reading = readings.get(id);
      if (!reading) throw new Error(`${id} is not read`);
      return reading;
    },
    parameter: (id) => parts.parameters?.find((one) => one.id === id)?.value ?? '',
    table: (id) => {
      const table = parts.tables?.find((one) => one.id === id);
      if (!table) throw new Error(`no table ${id}`);
      return table;
    },
    conclusion: () => ({ possible: [], settled: true, stands: false, waitsFor: [] }),
    codes: (list) => Object.keys(parts.codes?.[list] ?? {}),
    asOf: { kind: 'interval', low: asOf, high: asOf },
    zone: patient.timeZone ?? 'Europe/London',
  });
}
