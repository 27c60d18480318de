/** Stands on everything that advises. */
export const CAUTIONS = [
  "For registered professionals: it supports their judgement, the local policy and the manufacturer's instructions, and replaces none of them.",
  'Not for emergencies.',
  'Every value is a default until the local body adopts it.',
] as const;

export const ENGINE = { name: '@dwellset/core', version: '0.1.0' } as const;
