import type { Library } from '@dwellset/authoring';
import type { VignettesDocument } from '../draft/draft.ts';
import type { Documents } from './documents.ts';
import { Rows } from './filling.ts';
import { patientsOf, vignettesIn } from './published.ts';
import type { News } from './shapes.ts';

type Own = Readonly<Record<string, VignettesDocument>>;

/** The invented patients of every set that somebody wanted, the author's own among them. */
export class Seats {
  readonly #library: Library;
  readonly #documents: Pick<Documents, 'patients'>;
  readonly #post: (news: News) => void;
  readonly #published = new Map<string, readonly [string, VignettesDocument][]>();
  readonly #seated = new Map<string, Rows>();
  #own: Own = {};

  constructor(library: Library, documents: Pick<Documents, 'patients'>, post: (news: News) => void) {
    this.#library = library;
    this.#documents = documents;
    this.#post = post;
  }

  /** The patients of a set, fetched when they are first wanted; `undefined`, and told, where they cannot be. */
  async of(set: string): Promise<Rows | undefined> {
    const known = this.#seated.get(set);
    const inLibrary = this.#library.sets.get(set);
    if (known || !inLibrary) return known;
    try {
      const files = await this.#documents.patients(set);
      // Somebody else may have waited for them too.
      if (!this.#seated.has(set)) {
        this.#published.set(set, vignettesIn(inLibrary, files));
        this.#seat(set);
      }
    } catch {
      this.#post({ kind: 'missing', set });
    }
    return this.#seated.get(set);
  }

  /** Takes the author's own patients; answers with the sets whose patients are others now. */
  takeOwn(own: Own): string[] {
    const before = this.#own;
    this.#own = own;
    const changed = [...this.#seated.keys()].filter(
      (set) => JSON.stringify(own[set]) !== JSON.stringify(before[set]),
    );
    for (const set of changed) this.#seat(set);
    return changed;
  }

  #seat(set: string): void {
    const patients = patientsOf(this.#published.get(set) ?? [], this.#own[set]);
    this.#seated.set(set, new Rows(patients));
    this.#post({ kind: 'patients', set, rows: patients.map(({ case: _, ...row }) => row) });
  }
}
