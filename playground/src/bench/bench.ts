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
import { isPlan, type Judge, outcomesInto, planOf, textsOf } from './judge.ts';
import { AMENDMENT, OURS } from './ours.ts';
import { pause } from './pause.ts';
import { openedOf, type Patient, patientsOf } from './published.ts';
import { quickJudge } from './quick.ts';
import type { News, Opened, Side } from './shapes.ts';

/** A longer stretch of work is broken here, so that newer orders are heard. */
const SLICE_MS = 12;

interface Filled {
  readonly judge: Judge;
  /** Rows with outcomes, and rows with texts. */
  cells: number;
  texts: number;
}

/** Judges every invented patient by the published rules and by the author's, in slices, the set in view first. */
export class Bench {
  readonly published: Library;
  library: Library;
  #own: Readonly<Record<string, VignettesDocument>> = {};
  #generation = 0;
  readonly #patients = new Map<string, Patient[]>();
  readonly #base = new Map<string, Filled>();
  readonly #opened: Opened;
  readonly #post: (news: News) => void;

  constructor(files: ReadonlyMap<string, string>, post: (news: News) => void) {
    this.published = readLibrary(files);
    this.library = this.published;
    this.#post = post;
    this.#opened = openedOf(this.published);
    post({ kind: 'opened', opened: this.#opened });
  }

  get hospital(): { hospital: string } | undefined {
    return this.library.hospitals.has(OURS) || this.library !== this.published
      ? { hospital: OURS }
      : undefined;
  }

  releases(side: Side, set: string): readonly Release[] {
    if (side === 'base' || !this.hospital) return releasesFor(this.published, set);
    const ours = releasesFor(this.library, set, this.hospital);
    // Changes that are refused change nothing.
    return ours.length === 0 ? releasesFor(this.published, set) : ours;
  }

  patient(set: string, key: string): Patient | undefined {
    return this.#patients.get(set)?.find((row) => row.key === key);
  }

  /** Takes the author's documents as they are now; a newer order ends the work on an older one. */
  async draft(
    generation: number,
    amendment: string | undefined,
    own: Readonly<Record<string, VignettesDocument>>,
    first: string,
  ): Promise<void> {
    this.#generation = generation;
    this.library =
      amendment === undefined ? this.published : withDocument(this.published, AMENDMENT, amendment);
    this.#takeOwn(own);
    const order = [first, ...this.#opened.sets.map(({ id }) => id).filter((id) => id !== first)];
    const known = order.filter((id) => this.published.sets.has(id));
    const releases: Record<string, Release> = {};
    const judges = new Map<string, Judge>();
    const stale = () => generation !== this.#generation;
    await this.#quickly(known[0]!, amendment, stale);
    if (stale()) return;
    let refused = this.#build(known[0]!, releases, judges);
    this.#post({ kind: 'built', generation, built: { refused, releases: { ...releases } } });
    await this.#cellsOf(known[0]!, judges, stale);
    for (const set of known.slice(1)) {
      if (stale()) return;
      if (refused.length === 0) refused = this.#build(set, releases, judges);
      await pause();
    }
    if (stale()) return;
    this.#post({ kind: 'built', generation, built: { refused, releases } });
    for (const set of known.slice(1)) if (!stale()) await this.#cellsOf(set, judges, stale);
    for (const set of known) if (!stale()) await this.#textsOf(set, judges, stale);
    if (!stale()) this.#post({ kind: 'settled', generation });
  }

  async #quickly(set: string, amendment: string | undefined, stale: () => boolean): Promise<void> {
    const base = this.#baseOf(set);
    if (amendment === undefined || base === undefined) return;
    const published = base.judge.plan.sets.map(({ release }) => release);
    const judge = quickJudge(set, published, JSON.parse(amendment) as AmendmentDocument);
    if (judge === undefined) return;
    await this.#fill('base', base, 'cells', stale);
    await this.#fill('ours', { judge, cells: 0, texts: 0 }, 'cells', stale);
  }

  #takeOwn(own: Readonly<Record<string, VignettesDocument>>): void {
    for (const [id, set] of this.published.sets) {
      if (this.#patients.has(id) && JSON.stringify(own[id]) === JSON.stringify(this.#own[id])) continue;
      const patients = patientsOf(set, own[id]);
      this.#patients.set(id, patients);
      this.#base.delete(id);
      const rows = patients.map(({ case: _, ...row }) => row);
      this.#post({ kind: 'patients', set: id, rows });
    }
    this.#own = own;
  }

  /** Builds one set with the author's changes; a judge only where it differs from the published one. */
  #build(set: string, releases: Record<string, Release>, judges: Map<string, Judge>) {
    if (!this.hospital) return [];
    const built = buildRelease(this.library, set, this.hospital);
    if (built.release === undefined) return built.refused ?? [];
    if (built.digest === this.#opened.sets.find(({ id }) => id === set)?.digest) return [];
    const plan = planOf(this.releases('ours', set));
    if (!isPlan(plan)) return [];
    releases[set] = built.release;
    judges.set(set, { set, plan, rules: built.release.rules.map(({ id }) => id) });
    return [];
  }

  #baseOf(set: string): Filled | undefined {
    const known = this.#base.get(set);
    if (known) return known;
    const plan = planOf(releasesFor(this.published, set));
    if (!isPlan(plan)) return undefined;
    const rules = plan.sets.find(({ release }) => release.id === set)!.release.rules.map(({ id }) => id);
    const filled = { judge: { set, plan, rules }, cells: 0, texts: 0 };
    this.#base.set(set, filled);
    return filled;
  }

  async #cellsOf(set: string, judges: ReadonlyMap<string, Judge>, stale: () => boolean): Promise<void> {
    const base = this.#baseOf(set);
    const own = judges.get(set);
    if (base) await this.#fill('base', base, 'cells', stale);
    if (own) await this.#fill('ours', { judge: own, cells: 0, texts: 0 }, 'cells', stale);
    else if (!stale()) this.#post({ kind: 'same', set });
  }

  async #textsOf(set: string, judges: ReadonlyMap<string, Judge>, stale: () => boolean): Promise<void> {
    const base = this.#baseOf(set);
    const own = judges.get(set);
    if (base) await this.#fill('base', base, 'texts', stale);
    if (own) await this.#fill('ours', { judge: own, cells: 0, texts: 0 }, 'texts', stale);
  }

  async #fill(side: Side, filled: Filled, what: 'cells' | 'texts', stale: () => boolean): Promise<void> {
    const { judge } = filled;
    const { set, rules } = judge;
    const patients = this.#patients.get(set) ?? [];
    while (filled[what] < patients.length) {
      if (stale()) return;
      const from = filled[what];
      const until = performance.now() + SLICE_MS;
      const outcomes: number[] = [];
      const texts: { short: string; sign: string }[] = [];
      const row = new Uint8Array(rules.length);
      do {
        const patient = patients[filled[what]]!.case;
        if (what === 'cells') {
          outcomesInto(judge, patient, row, 0);
          outcomes.push(...row);
        } else texts.push(textsOf(judge, patient));
        filled[what] += 1;
      } while (filled[what] < patients.length && performance.now() < until);
      if (what === 'cells') {
        const cells = Uint8Array.from(outcomes);
        this.#post({ kind: 'cells', set, side, rules, from, cells, rows: filled[what] - from });
      } else {
        const shorts = texts.map(({ short }) => short);
        this.#post({ kind: 'texts', set, side, from, shorts, signs: texts.map(({ sign }) => sign) });
      }
      if (filled[what] < patients.length) await pause();
    }
  }
}
