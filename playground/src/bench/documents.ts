/** Path → text. */
export type Files = ReadonlyMap<string, string>;

const RULES = 'rules';
const patientsOf = (set: string): string => `patients-${set}`;

/** The documents of the policies, fetched part by part and each but once. */
export class Documents {
  readonly #addresses: Readonly<Record<string, string>>;
  readonly #fetched = new Map<string, Promise<Files>>();

  /** Part → its address. */
  constructor(addresses: Readonly<Record<string, string>>) {
    this.#addresses = addresses;
  }

  /** Everything but invented patients and published answers. */
  rules(): Promise<Files> {
    return this.#part(RULES);
  }

  /** The invented patients of one set; a set without any has no part. */
  async patients(set: string): Promise<Files> {
    return Object.hasOwn(this.#addresses, patientsOf(set)) ? this.#part(patientsOf(set)) : new Map();
  }

  /** All of it, as the policies folder holds it. */
  async all(): Promise<Files> {
    const parts = await Promise.all(Object.keys(this.#addresses).map((part) => this.#part(part)));
    return new Map(parts.flatMap((part) => [...part]));
  }

  #part(part: string): Promise<Files> {
    const known = this.#fetched.get(part);
    if (known) return known;
    const fetched = read(this.#addresses[part]!);
    this.#fetched.set(part, fetched);
    // Without a network now is not without one for ever.
    fetched.catch(() => this.#fetched.delete(part));
    return fetched;
  }
}

async function read(address: string): Promise<Files> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`the policies could not be read (${response.status})`);
  return new Map(Object.entries((await response.json()) as Record<string, string>));
}
