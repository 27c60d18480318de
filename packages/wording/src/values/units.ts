import type { Fact } from '@dwellset/core';

const PLURAL: Readonly<Record<string, readonly [one: string, many: string]>> = {
  d: ['day', 'days'],
  wk: ['week', 'weeks'],
  mo: ['month', 'months'],
  a: ['year', 'years'],
};

const WORDS: Readonly<Record<string, string>> = {
  '1': '',
  Cel: 'degrees C',
  'umol/L': 'micromol/L',
  '%': '%',
};

/** A UCUM unit as staff write it, in plain ASCII: `[Ch]` → Ch, `mm[Hg]` → mmHg, `d` → day or days. */
export function unitWords(unit: string | undefined, amount?: number): string {
  if (unit === undefined) return '';
  const plural = PLURAL[unit];
  if (plural) return plural[amount === 1 ? 0 : 1];
  return WORDS[unit] ?? unit.replace(/\[([^\]]*)\]/g, '$1');
}

/** What a number needs to be written: its unit and how many digits it is shown with. */
export type Measured = Partial<Pick<Fact, 'unit' | 'step' | 'decimals' | 'from'>>;

const stepPlaces = (step: number): number => (String(step).split('.')[1] ?? '').length;

/**
 * Digits as the fact asks for. Time that has passed is cut, not rounded, as in the texts of advice: 5.96 h must
 * not read as 6.0 h where a limit of 6 is not reached.
 */
export function numberWords(value: number, measured: Measured = {}): string {
  const { step, decimals, from } = measured;
  const places = decimals ?? (step === undefined ? undefined : stepPlaces(step));
  if (places === undefined) return String(value);
  if (from === undefined || !('elapsed' in from) || step !== undefined) return value.toFixed(places);
  const scale = 10 ** places;
  return (Math.floor(value * scale + 1e-9) / scale).toFixed(places);
}

export function amountWords(value: number, measured: Measured = {}): string {
  const words = unitWords(measured.unit, value);
  return words === '' ? numberWords(value, measured) : `${numberWords(value, measured)} ${words}`;
}
