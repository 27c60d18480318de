import type { Example } from '../provoke.ts';

const WARD = 'wards/hill.json';

/** Mistakes in invented wards. */
export const wards: readonly Example[] = [
  {
    code: 'unknown-stage',
    mistake: 'a misspelt stage',
    path: WARD,
    from: '"after": "arrival"',
    to: '"after": «"arival"»',
    hint: 'did you mean `arrival`',
  },
  {
    code: 'draw-shape',
    mistake: 'a draw without a form',
    path: WARD,
    from: '"catheter.size": { "between": [12, 16], "step": 2, "unit": "[Ch]" }',
    to: '«"catheter.size"»: { "step": 2 }',
  },
  {
    code: 'draw-shape',
    mistake: 'a yes or no between two numbers',
    path: WARD,
    from: '"allergy.latex": { "oneOf": [{ "value": true }, { "value": false, "weight": 9 }] }',
    to: '«"allergy.latex"»: { "between": [0, 1] }',
  },
  {
    code: 'unit-mismatch',
    mistake: 'a size drawn in another unit',
    path: WARD,
    from: '"unit": "[Ch]"',
    to: '"unit": «"mm"»',
  },
  {
    code: 'limits-order',
    mistake: 'a stay that runs backwards',
    path: WARD,
    from: '"stayDays": [2, 4]',
    to: '"stayDays": «[»4, 2]',
  },
  {
    code: 'unknown-fact',
    mistake: 'a misspelt fact of a stage',
    path: WARD,
    from: '"catheter.size"',
    to: '«"catheter.sise"»',
    hint: 'did you mean `catheter.size`',
  },
  {
    code: 'wrong-shape',
    mistake: 'a value of another type',
    path: WARD,
    from: '{ "value": true }',
    to: '{ "value": «"yes"» }',
  },
];
