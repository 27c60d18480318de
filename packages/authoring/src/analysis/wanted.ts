import { FALSE, TRUE, type Truth } from '@dwellset/core';

/** Which truths of a condition are meant. With something not recorded, "not false" is more than "true". */
export type Wanted = 'true' | 'false' | 'not-true' | 'not-false';

export const isWanted = (truth: Truth, wanted: Wanted): boolean => {
  switch (wanted) {
    case 'true':
      return truth === TRUE;
    case 'false':
      return truth === FALSE;
    case 'not-true':
      return truth !== TRUE;
    case 'not-false':
      return truth !== FALSE;
  }
};
