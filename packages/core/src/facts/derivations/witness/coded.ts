import type { DerivationOf } from '../kinds.ts';
import { scaleOf } from './scale.ts';
import { search, type Values } from './search.ts';
import type { ExactValue, Trial } from './trial.ts';

/** The first of some values of one operand that gives the target. */
function firstThatGives(
  trial: Trial,
  target: ExactValue,
  operand: string,
  values: Iterable<ExactValue>,
): Values | undefined {
  for (const value of values) {
    trial.set(operand, value);
    if (trial.gives(target)) return new Map([[operand, value]]);
  }
  return undefined;
}

/** The first operand that can have the value, all before it known to be empty; a derived one cannot be emptied. */
export function firstRecorded(trial: Trial, target: ExactValue): Values | undefined {
  const earlier = new Map<string, null>();
  for (const id of trial.operands) {
    const fact = trial.inputs.fact(id);
    const values =
      typeof target === 'number'
        ? search(trial, target, [id])
        : trial.admits(fact, target)
          ? firstThatGives(trial, target, id, [target])
          : undefined;
    if (values) return new Map([...earlier, ...values]);
    if (fact.from !== undefined) return undefined;
    trial.set(id, null);
    earlier.set(id, null);
  }
  return undefined;
}

export function lookup(
  trial: Trial,
  target: ExactValue,
  { lookup }: DerivationOf<'lookup'>,
): Values | undefined {
  const { codes } = trial.inputs.fact(lookup.key);
  return firstThatGives(trial, target, lookup.key, trial.inputs.codes(codes ?? ''));
}

/** Each band holds a limit of the number, a cut or one of its neighbours, unless it holds no value at all. */
export function band(trial: Trial, target: ExactValue, { band }: DerivationOf<'band'>): Values | undefined {
  const scale = scaleOf(trial.inputs.fact(band.of), trial.inputs.asOf, false);
  if (scale === undefined) return undefined;
  const { first, last, stepped } = scale;
  const near = band.cuts.flatMap((cut) => {
    const index = scale.nearest(cut);
    return stepped ? [index, index - 1, index + 1] : [index, cut - 1, cut + 1];
  });
  const indices = [...near, first, last].filter((index) => index >= first && index <= last);
  return firstThatGives(
    trial,
    target,
    band.of,
    indices.map((index) => scale.value(index)),
  );
}

/** The first codes of the list, as many as it takes, answered yes and all others no. */
export function countCodes(
  trial: Trial,
  target: ExactValue,
  { countCodes }: DerivationOf<'countCodes'>,
): Values | undefined {
  const { of, in: list } = countCodes;
  const given = 'parameter' in list ? trial.inputs.parameter(list.parameter) : list;
  const known = trial.inputs.codes(trial.inputs.fact(of).codes ?? '');
  const counted = known.filter((code) => Array.isArray(given) && given.includes(code));
  const counts = Array.from({ length: counted.length + 1 }, (_, count) => counted.slice(0, count));
  return firstThatGives(trial, target, of, counts);
}
