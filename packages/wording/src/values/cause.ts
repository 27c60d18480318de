import type { Cause } from '@dwellset/core';

const WORDS: Readonly<Record<Cause, string>> = {
  'not-supplied': 'nobody supplied it',
  'nothing-recorded': 'looked for, nothing recorded',
  stale: 'recorded too long ago to rely on',
  undated: 'recorded without a time, and it can go out of date',
  conflicting: 'contradicts another entry',
  impossible: 'recorded value is not possible and was not used',
  unusual: 'recorded value is unusual and nobody has confirmed it',
  'wrong-type': 'recorded value is of the wrong kind and was not used',
  'wrong-unit': 'recorded without the right unit and was not used',
  'no-entry': 'the table has no entry for it',
  'within-bounds': 'known only within limits',
  derived: 'follows from entries that are not fully known',
  unknown: 'recorded as unknown',
  'asked-unknown': 'asked, and the answer is not known',
  'temp-unknown': 'not known for the moment',
  'not-asked': 'nobody has asked',
  'asked-declined': 'asked, and an answer was declined',
  masked: 'withheld for privacy',
  'not-applicable': 'recorded as not applicable',
  unsupported: 'the sending system cannot supply it',
  'as-text': 'recorded only as free text',
  error: 'could not be fetched',
  'not-a-number': 'recorded as not a number',
  'negative-infinity': 'recorded as lower than can be measured',
  'positive-infinity': 'recorded as higher than can be measured',
  'not-performed': 'recorded as not done',
  'not-permitted': 'the sender may not pass it on',
  'not-needed': 'not fetched, because nothing waited for it',
};

/** Why a value is not exactly known, in plain words that follow a colon or a dash. */
export const causeWords = (cause: Cause): string => WORDS[cause];
