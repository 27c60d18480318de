import type { z } from 'zod';
import type { parameter, table } from '../documents/choices.ts';
import type { evidence } from '../documents/evidence.ts';
import type { fact } from '../documents/facts.ts';
import type { hazard } from '../documents/hazards.ts';
import type { DocumentKind, DocumentOf } from '../documents/kinds.ts';
import type { source } from '../documents/sources.ts';
import type { Source } from '../parse/source.ts';

/** One JSON file of the policies folder. */
export interface LibraryDocument {
  readonly path: string;
  readonly source: Source;
  /** Absent where `$schema` names none of ours. */
  readonly kind?: DocumentKind;
  /** Whether its structure is what its kind asks for. */
  readonly sound: boolean;
}

/** Something an author wrote, and where it stands. */
export interface Placed<T> {
  readonly value: T;
  readonly document: LibraryDocument;
  /** JSON Pointer within the document. */
  readonly pointer: string;
}

export interface LibrarySet {
  /** The name of its folder. */
  readonly id: string;
  readonly ruleSet: Placed<DocumentOf<'rule-set'>>;
  /** In the order that the set states; rules it does not list come last. */
  readonly rules: ReadonlyMap<string, Placed<DocumentOf<'rule'>>>;
  /** By the rule they stand beside. */
  readonly vignettes: ReadonlyMap<string, Placed<DocumentOf<'vignettes'>>>;
  readonly stock: ReadonlyMap<string, Placed<DocumentOf<'stock'>>>;
}

export interface LibraryHospital {
  /** The name of its folder. */
  readonly id: string;
  readonly amendment?: Placed<DocumentOf<'amendment'>>;
  readonly adoption?: Placed<DocumentOf<'adoption'>>;
  /** By file name without `.case.json`. */
  readonly cases: ReadonlyMap<string, Placed<DocumentOf<'case'>>>;
  /** What it accepts of its own amended sets, by set. */
  readonly accepted: ReadonlyMap<string, Placed<DocumentOf<'accepted'>>>;
}

/**
 * All documents of a policies folder, sorted by kind. Where two define the same id the first one stands; what is
 * unsound is left out of the indexes, entry by entry, and its id kept in `unsound`.
 */
export interface Library {
  /** By path. */
  readonly documents: readonly LibraryDocument[];
  readonly codes: ReadonlyMap<string, Placed<DocumentOf<'codes'>['lists'][string]>>;
  /** Code lists that a hospital may add to. */
  readonly extensible: ReadonlySet<string>;
  /** Dictionary order. */
  readonly facts: ReadonlyMap<string, Placed<z.infer<typeof fact>>>;
  readonly parameters: ReadonlyMap<string, Placed<z.infer<typeof parameter>>>;
  readonly tables: ReadonlyMap<string, Placed<z.infer<typeof table>>>;
  readonly sources: ReadonlyMap<string, Placed<z.infer<typeof source>>>;
  readonly evidence: ReadonlyMap<string, Placed<z.infer<typeof evidence>>>;
  readonly hazards: ReadonlyMap<string, Placed<z.infer<typeof hazard>>>;
  /** Published answers, by the id of the document. */
  readonly keys: ReadonlyMap<string, Placed<DocumentOf<'key'>>>;
  /** Accepted findings, by the set that they are about. */
  readonly accepted: ReadonlyMap<string, Placed<DocumentOf<'accepted'>>>;
  readonly sets: ReadonlyMap<string, LibrarySet>;
  readonly hospitals: ReadonlyMap<string, LibraryHospital>;
  /** Released versions that must no longer be used. */
  readonly withdrawals: readonly DocumentOf<'withdrawal'>[];
  /** Ids whose entry or document is there but cannot be used. */
  readonly unsound: ReadonlySet<string>;
}
