import type { CaseValue } from '../facts/case.ts';

/** What an `AbortSignal` is to the core, which knows no platform. */
export interface CancelSignal {
  readonly aborted: boolean;
  readonly reason?: unknown;
  addEventListener(type: 'abort', listener: () => void): void;
  removeEventListener(type: 'abort', listener: () => void): void;
}

/** A place that answers facts when asked: a laboratory, a chart, a question to the nurse. */
export interface FactProvider<S extends CancelSignal = CancelSignal> {
  readonly facts: readonly string[];
  /** What one fetch costs, in any unit that all providers share. */
  readonly cost: number;
  /** A fact left out of the answer counts as not supplied; `null` as looked for and not recorded. */
  readonly fetch: (signal: S | undefined) => Promise<Readonly<Record<string, CaseValue>>>;
}

/** Why a fetch brought nothing. */
export type FetchFailure = 'rejected' | 'timed-out' | 'cancelled';

const failureOf = ({ reason }: CancelSignal): FetchFailure =>
  typeof reason === 'object' && reason !== null && 'name' in reason && reason.name === 'TimeoutError'
    ? 'timed-out'
    : 'cancelled';

/** Asks one provider; ends with its answer, its failure or the first signal, and never rejects. */
export function ask<S extends CancelSignal>(
  provider: FactProvider<S>,
  own: S | undefined,
  whole: S | undefined,
): Promise<Readonly<Record<string, CaseValue>> | FetchFailure> {
  const signals = [whole, own].filter((signal) => signal !== undefined);
  const ended = signals.find(({ aborted }) => aborted);
  if (ended) return Promise.resolve(failureOf(ended));
  return new Promise((resolve) => {
    const listening = signals.map((signal) => ({ signal, stop: () => finish(failureOf(signal)) }));
    function finish(result: Readonly<Record<string, CaseValue>> | FetchFailure): void {
      for (const { signal, stop } of listening) signal.removeEventListener('abort', stop);
      resolve(result);
    }
    for (const { signal, stop } of listening) signal.addEventListener('abort', stop);
    const answer = async (): Promise<void> => {
      const facts = await provider.fetch(own ?? whole);
      finish(typeof facts === 'object' && facts !== null && !Array.isArray(facts) ? facts : 'rejected');
    };
    answer().catch(() => finish('rejected'));
  });
}
