import type { Case, CaseValue } from '@dwellset/core';
import { effect, signal } from '@preact/signals';
import { get, set } from 'idb-keyval';

/** An empty patient at a round moment; nothing is known of them. */
const nobody = (): Case => ({
  asOf: new Date(Math.floor(Date.now() / 3_600_000) * 3_600_000).toISOString().replace('.000Z', 'Z'),
  timeZone: Intl.DateTimeFormat().resolvedOptions().timeZone || 'UTC',
  facts: {},
});

/** Until the one tried last is brought back. */
const NOT_YET: Case = { asOf: '1970-01-01T00:00:00Z', timeZone: 'UTC', facts: {} };
export const patient = signal<Case>(NOT_YET);
/** The invented patient it was taken from, as `set/rule/id`. */
export const takenFrom = signal<string | undefined>(undefined);

/** The fact whose question is to be brought into view, with the cursor in its field. */
export const wanted = signal<string | undefined>(undefined);

export const newPatient = (): void => {
  takenFrom.value = undefined;
  patient.value = nobody();
};

export function setFact(fact: string, value: CaseValue | undefined): void {
  const { [fact]: _, ...others } = patient.value.facts;
  patient.value = {
    ...patient.value,
    facts: value === undefined ? others : { ...patient.value.facts, [fact]: value },
  };
}

const KEY = 'patient';
/** Brings the patient tried last back and keeps every change, in this browser only. */
export async function keepPatient(): Promise<void> {
  try {
    patient.value = (await get<Case>(KEY)) ?? nobody();
    effect(() => {
      void set(KEY, patient.value).catch(() => undefined);
    });
  } catch {
    // The draft's own notice says that this browser keeps nothing.
    patient.value = nobody();
  }
}
