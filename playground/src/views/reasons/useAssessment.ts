import type { Assessment, Case } from '@dwellset/core';
import { useEffect, useState } from 'preact/hooks';
import { ask, built } from '../../bench/client.ts';
import type { Side } from '../../bench/shapes.ts';

export interface Assessed {
  readonly assessment?: Assessment;
  readonly failed?: string;
}

/** Assesses a patient by the rules of one side, again whenever the patient or the rules change. */
export function useAssessment(
  side: Side,
  sets: readonly string[],
  patient: Case | null | undefined,
): Assessed {
  const [assessed, setAssessed] = useState<Assessed>({});
  const rules = side === 'ours' ? built.value : undefined;
  useEffect(() => {
    if (!patient) return;
    let wanted = true;
    ask('assess', { side, sets, patient }).then(
      ({ assessment }) => wanted && setAssessed({ assessment }),
      (error: Error) => wanted && setAssessed({ failed: error.message }),
    );
    return () => {
      wanted = false;
    };
  }, [side, sets.join(), patient, rules]);
  return assessed;
}

/** The case of an invented patient of a set; `null` where the set has none of this name. */
export function usePatient(set: string, key: string | null): Case | null | undefined {
  const [patient, setPatient] = useState<{ key: string; case: Case | null } | undefined>();
  useEffect(() => {
    if (key === null) return setPatient(undefined);
    let wanted = true;
    ask('patient', { set, key }).then(
      (found) => wanted && setPatient({ key, case: found ?? null }),
      () => wanted && setPatient(undefined),
    );
    return () => {
      wanted = false;
    };
  }, [set, key, built.value]);
  return patient?.key === key ? patient?.case : undefined;
}
