import type { Case } from '@dwellset/core';
import { WARD_CAUTION } from '@dwellset/wording';
import { useEffect, useState } from 'preact/hooks';
import { address } from '../../route.ts';
import { ward, wardCase } from '../../ward/client.ts';
import { PatientView } from '../patient/PatientView.tsx';

type Found = { readonly name: string; readonly case: Case | undefined };

/** One day of the invented ward as a patient: made when asked for, and tried by the one-case way. */
export function WardPatient({ row }: { row: number }) {
  const [found, setFound] = useState<Found | undefined>();
  useEffect(() => {
    let wanted = true;
    void wardCase(row).then((one) => wanted && setFound(one));
    return () => {
      wanted = false;
    };
  }, [row]);
  if (!found && ward.failure.value !== undefined) {
    return <p role="alert">The patient could not be fetched from the invented ward: {ward.failure.value}.</p>;
  }
  if (!found) return <p role="status">The patient is being fetched from the invented ward …</p>;
  if (!found.case) {
    return (
      <article>
        <h1>No such patient</h1>
        <p>
          The invented ward has no such day. <a href={address(['ward'])}>Back to the ward</a>
        </p>
      </article>
    );
  }
  return (
    <>
      <p class="aside">
        <a href={address(['ward'])}>Whom it affects</a> · {WARD_CAUTION}
      </p>
      <PatientView from={null} given={{ name: `ward/${row}`, title: found.name, case: found.case }} />
    </>
  );
}
