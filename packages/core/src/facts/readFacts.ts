import type { Problem } from '../explain/assessment.ts';
import type { Case } from './case.ts';
import { NOTHING_CONCLUDED } from './derivations/kind.ts';
import type { FactTable } from './factTable.ts';
import { isObject } from './isObject.ts';
import { type Moment, momentOf } from './moment.ts';
import type { Entry } from './plain.ts';
import { type Concluder, Reader } from './reader.ts';
import type { Readings, Row } from './readings.ts';

/** Every fact of one case, read once and shared. */
export interface CaseReadings {
  readonly readings: Readings;
  readonly problems: readonly Problem[];
  readonly moment: Moment;
}

/**
 * Reads every fact of the table from a case. What is read of the facts that it does not mention is taken from
 * `blank`, so that a case costs what it says. Never throws, whatever JSON the case is.
 */
export function readFacts(
  table: FactTable,
  blank: Row,
  raw: Case,
  conclude: Concluder,
  at?: { asOf: number; ignoreStale?: boolean },
): CaseReadings {
  const patient = (isObject(raw) ? raw : {}) as unknown as Case;
  const { moment: stated, usable, problems } = momentOf(patient);
  const moment: Moment = at === undefined ? stated : { ...stated, ...at };
  const supplied = usable && isObject(patient.facts) ? patient.facts : {};
  const searched = usable && Array.isArray(patient.searched) ? patient.searched : [];
  const row = usable ? blank.slice() : new Array<Entry | undefined>(blank.length);
  const read = Reader.read(table, { moment, row, conclude }, supplied, searched);
  if (read.unread.length > 0) problems.push({ code: 'not-read', message: read.unread.sort().join(', ') });
  const found = problems.length + read.problems.length;
  return {
    readings: read.readings,
    problems: found === 0 ? NONE : [...problems, ...read.problems],
    moment,
  };
}

/**
 * Reads the facts of one option on top of the patient's. A missing attribute of a listed item means nothing
 * recorded: whoever listed it looked at the label. Of an item in the hand nobody said so.
 */
export function readOption(
  table: FactTable,
  patient: CaseReadings,
  item: Readonly<Record<string, unknown>>,
  listed: boolean,
): CaseReadings {
  const row = patient.readings.row.slice();
  const { moment } = patient;
  const given = { moment, row, conclude: nothingConcluded };
  const { readings, problems } = Reader.read(table, given, item, listed ? ['option'] : []);
  return { readings, problems, moment };
}

/** Most cases have none, and share this. */
const NONE: readonly Problem[] = Object.freeze([]);

/** No fact per option is a conclusion: those are read once for the patient. */
const nothingConcluded: Concluder = () => NOTHING_CONCLUDED;
