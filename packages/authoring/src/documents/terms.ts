import { z } from 'zod';

/** `group.kebab-name`: facts, parameters and tables; facts and parameters share one name space. */
export const factId = z
  .string()
  .regex(/^[a-z]+\.[a-z][a-z0-9]*(-[a-z0-9]+)*$/)
  .meta({ id: 'fact-id' });

/** Every other id. */
export const kebab = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/)
  .meta({ id: 'kebab' });

/** A code of a list: as an id, and it may hold a figure with a decimal point. */
export const code = z
  .string()
  .regex(/^[a-z0-9]+([-.][a-z0-9]+)*$/)
  .meta({ id: 'code' });

/** Evidence keeps the id of the published row it restates: capitals, digits and points are theirs. */
export const evidenceId = z
  .string()
  .regex(/^[A-Za-z0-9]+([-.][A-Za-z0-9]+)*$/)
  .meta({ id: 'evidence-id' });

export const text = z.string().min(1).meta({ id: 'text' });

/** Three numbers, as in semantic versioning. */
export const version = z
  .string()
  .regex(/^(0|[1-9][0-9]*)\.(0|[1-9][0-9]*)\.(0|[1-9][0-9]*)$/)
  .meta({ id: 'version' });

/** SHA-256 of a release, in lower-case hexadecimal. */
export const digestText = z
  .string()
  .regex(/^[0-9a-f]{64}$/)
  .meta({ id: 'digest' });

/** The shape of a calendar day; whether the day exists is for the check. */
export const date = z
  .string()
  .regex(/^[0-9]{4}-[0-9]{2}-[0-9]{2}$/)
  .meta({ id: 'date' });

/** The shape of an instant with its offset; whether it exists is for the check. */
export const instant = z
  .string()
  .regex(/^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}(:[0-9]{2}(\.[0-9]{1,3})?)?(Z|[+-][0-9]{2}:[0-9]{2})$/)
  .meta({ id: 'instant' });

/** ISO 8601 duration of days, hours and minutes; longer units have no fixed length. */
export const duration = z
  .string()
  .regex(/^P(?=[0-9]|T[0-9])([0-9]+D)?(T(?=[0-9])([0-9]+H)?([0-9]+M)?)?$/)
  .meta({ id: 'duration' });

/** The name of a group of facts: the first segment of their ids. */
export const group = z
  .string()
  .regex(/^[a-z]+$/)
  .meta({ id: 'group' });

export const note = text.exactOptional();

export const band = z.tuple([z.number(), z.number()]);
