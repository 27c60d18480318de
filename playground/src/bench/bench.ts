import {
  type AmendmentDocument,
  buildRelease,
  type Library,
  readLibrary,
  releasesFor,
  withDocument,
} from '@dwellset/authoring';
import type { Release } from '@dwellset/core';
import type { VignettesDocument } from '../draft/draft.ts';
import type { Documents, Files } from './documents.ts';
import { Filling, QuickFilling } from './filling.ts';
import { isPlan, planOf } from './judge.ts';
import { AMENDMENT, OURS } from './ours.ts';
import { pause } from './pause.ts';
import { openedOf, type Patient } from './published.ts';
import { Quick } from './quick.ts';
import { Seats } from './seats.ts';
import type { News, Opened, Side } from './shapes.ts';

/** Longer than most people wait between two keystrokes. */
const TYPING_MS = 150;

/** Judges invented patients by the published rules and by the author's, in slices, the set in view first. */
export class Bench {
  /** Without invented patients, which nothing of a rule rests on. */
  readonly published: Library;
  amendment: string | undefined;
  #library: Library | undefined;
  #generation = 0;
  #busy = false;
  #inView = '';
  #whole: Promise<Library> | undefined;
  readonly #seats: Seats;
  readonly #base = new Map<string, Filling>();
  readonly #quick = new Map<string, Quick>();
  /** Of the sets that the author's changes make different. */
  #ours = new Map<string, Filling>();
  readonly #opened: Opened;
  readonly #post: (news: News) => void;
  readonly #documents: Pick<Documents, 'all' | 'patients'>;

  /** The rules come as files; invented patients are fetched when they are wanted, where they are not among these. */
  constructor(files: Files, post: (news: News) => void, documents?: Pick<Documents, 'all' | 'patients'>) {
    this.#documents = documents ?? { all: async () => files, patients: async () => files };
    this.published = readLibrary(files);
    this.#post = post;
    this.#opened = openedOf(this.published);
    this.#seats = new Seats(this.published, this.#documents, post);
    const { sets, ...others } = this.#opened;
    // Taken in one by one: all together would hold the page up.
    for (const set of sets) post({ kind: 'set', set });
    post({ kind: 'opened', opened: others });
  }

  /** The published documents with the author's changes as one more hospital. */
  get library(): Library {
    this.#library ??=
      this.amendment === undefined ? this.published : withDocument(this.published, AMENDMENT, this.amendment);
    return this.#library;
  }

  get hospital(): { hospital: string } | undefined {
    return this.amendment === undefined ? undefined : { hospital: OURS };
  }

  releases(side: Side, set: string): readonly Release[] {
    if (side === 'base' || !this.hospital) return releasesFor(this.published, set);
    const ours = releasesFor(this.library, set, this.hospital);
    // Changes that are refused change nothing.
    return ours.length === 0 ? releasesFor(this.published, set) : ours;
  }

  async patient(set: string, key: string): Promise<Patient | undefined> {
    return (await this.#seats.of(set))?.patients.find((row) => row.key === key);
  }

  /** The published documents with everything that a check or a proof holds against them. */
  whole(): Promise<Library> {
    this.#whole ??= this.#documents.all().then(readLibrary);
    this.#whole.catch(() => (this.#whole = undefined));
    return this.#whole;
  }

  /** Takes the author's documents as they are now; a newer order ends the work on an older one. */
  async draft(
    generation: number,
    amendment: string | undefined,
    own: Readonly<Record<string, VignettesDocument>>,
    first: string,
  ): Promise<void> {
    this.#generation = generation;
    this.#busy = true;
    this.#inView = first;
    this.amendment = amendment;
    this.#library = undefined;
    for (const set of this.#seats.takeOwn(own)) this.#base.delete(set);
    const stale = () => generation !== this.#generation;
    const sets = this.#opened.sets.map(({ id }) => id);
    const known = this.published.sets.has(first) ? [first, ...sets.filter((id) => id !== first)] : sets;
    await this.#seats.of(known[0]!);
    // Typing is let go on before the build, which cannot be broken off.
    if (!stale() && (await this.#quickly(known[0]!, amendment, stale)))
      await new Promise((go) => setTimeout(go, TYPING_MS));
    if (stale()) return;
    this.#ours = new Map();
    const releases: Record<string, Release> = {};
    let refused = await this.#build(known[0]!, releases, stale);
    if (stale()) return;
    this.#post({ kind: 'built', generation, built: { refused, releases: { ...releases } } });
    await this.#work(stale, known[0]);
    for (const set of known.slice(1)) {
      if (stale()) return;
      if (refused.length === 0) refused = await this.#build(set, releases, stale);
      await pause();
    }
    if (stale()) return;
    this.#post({ kind: 'built', generation, built: { refused, releases } });
    await this.#work(stale);
    if (stale()) return;
    this.#busy = false;
    this.#post({ kind: 'settled', generation });
    this.#quickOf(known[0]!).prepare();
  }

  /** Another set is looked at: it is judged next. */
  async view(set: string): Promise<void> {
    this.#inView = set;
    const generation = this.#generation;
    if (!this.#busy && generation > 0) await this.#work(() => generation !== this.#generation);
  }

  /** How the rules that the changes reach end in one set; false where only the build can say. */
  async #quickly(set: string, amendment: string | undefined, stale: () => boolean): Promise<boolean> {
    const base = this.#baseOf(set);
    if (amendment === undefined || base === undefined) return false;
    const changes = JSON.parse(amendment) as AmendmentDocument;
    const judge = this.#standsOnThese(changes) ? this.#quickOf(set).judge(changes) : undefined;
    const rows = await this.#seats.of(set);
    if (judge === undefined || rows === undefined) return false;
    const filling = new QuickFilling(judge, base);
    while (!stale() && filling.slice(rows, this.#post)) await pause();
    return true;
  }

  /** Whether the changes were made on the published rules as they are here. */
  #standsOnThese({ amends }: AmendmentDocument): boolean {
    return amends.every(({ set, version, digest }) =>
      this.#opened.sets.some(
        (own) => own.id === set && own.release.version === version && own.digest === digest,
      ),
    );
  }

  #quickOf(set: string): Quick {
    const known = this.#quick.get(set) ?? new Quick(set, releasesFor(this.published, set));
    this.#quick.set(set, known);
    return known;
  }

  /** Builds one set with the author's changes; it is judged again only where it differs from the published one. */
  async #build(set: string, releases: Record<string, Release>, stale: () => boolean) {
    const { library, hospital } = this;
    // In steps, so that a key pressed meanwhile is not kept waiting for all of them.
    await pause();
    if (stale()) return [];
    const built = hospital && buildRelease(library, set, hospital);
    await pause();
    if (stale()) return [];
    const isOther = built?.release && built.digest !== this.#opened.sets.find(({ id }) => id === set)?.digest;
    const plan = isOther ? planOf(this.releases('ours', set)) : undefined;
    if (built?.release && plan && isPlan(plan)) {
      releases[set] = built.release;
      this.#ours.set(set, new Filling('ours', { set, plan, rules: built.release.rules.map(({ id }) => id) }));
    } else this.#post({ kind: 'same', set });
    return built?.release === undefined ? (built?.refused ?? []) : [];
  }

  #baseOf(set: string): Filling | undefined {
    const known = this.#base.get(set);
    if (known) return known;
    const plan = planOf(releasesFor(this.published, set));
    if (!isPlan(plan)) return undefined;
    const rules = plan.sets.find(({ release }) => release.id === set)!.release.rules.map(({ id }) => id);
    const filling = new Filling('base', { set, plan, rules });
    this.#base.set(set, filling);
    return filling;
  }

  /**
   * Judges the set in view, then those that the changes make different: first how every rule ends, then what is said.
   * What nobody looks at and nothing changes is left alone. With `only`, how the rules of that set end.
   */
  async #work(stale: () => boolean, only?: string): Promise<void> {
    const failed = new Set<string>();
    const next = async (): Promise<boolean> => {
      const sets = only === undefined ? [...new Set([this.#inView, ...this.#ours.keys()])] : [only];
      for (const what of only === undefined ? (['cells', 'texts'] as const) : (['cells'] as const)) {
        for (const set of sets.filter((id) => this.published.sets.has(id) && !failed.has(id))) {
          const rows = await this.#seats.of(set);
          if (stale()) return false;
          if (!rows) failed.add(set);
          // The published rules first: they read the columns that the others go by.
          for (const filling of [this.#baseOf(set), this.#ours.get(set)]) {
            if (rows && filling?.slice(what, rows, this.#post)) return true;
          }
        }
      }
      return false;
    };
    while (!stale() && (await next())) await pause();
  }
}
