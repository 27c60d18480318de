import { childPointer } from '../parse/pointer.ts';
import type { Source } from '../parse/source.ts';

/**
 * A value of a document together with its place. Every look is total: what is not there, or of another shape,
 * is simply absent, so that the check can walk documents whose structure is wrong without tripping.
 */
export class Cursor {
  readonly source: Source;
  readonly pointer: string;
  readonly value: unknown;

  constructor(source: Source, value: unknown, pointer: string) {
    this.source = source;
    this.value = value;
    this.pointer = pointer;
  }

  static root(source: Source): Cursor {
    return new Cursor(source, source.value, '');
  }

  get exists(): boolean {
    return this.value !== undefined;
  }

  /** The key or index it stands under; empty for a whole document. */
  get key(): string {
    const escaped = this.pointer.slice(this.pointer.lastIndexOf('/') + 1);
    return escaped.replaceAll('~1', '/').replaceAll('~0', '~');
  }

  get text(): string | undefined {
    return typeof this.value === 'string' ? this.value : undefined;
  }

  get number(): number | undefined {
    return typeof this.value === 'number' ? this.value : undefined;
  }

  get isObject(): boolean {
    return typeof this.value === 'object' && this.value !== null && !Array.isArray(this.value);
  }

  get isList(): boolean {
    return Array.isArray(this.value);
  }

  has(key: string): boolean {
    return this.isObject && Object.hasOwn(this.value as object, key);
  }

  at(key: string): Cursor {
    const value = this.has(key) ? (this.value as Readonly<Record<string, unknown>>)[key] : undefined;
    return new Cursor(this.source, value, childPointer(this.pointer, key));
  }

  /** Elements of a list; none where this is no list. */
  get items(): readonly Cursor[] {
    if (!Array.isArray(this.value)) return [];
    return this.value.map((item, index) => new Cursor(this.source, item, childPointer(this.pointer, index)));
  }

  get keys(): readonly string[] {
    return this.isObject ? Object.keys(this.value as object) : [];
  }

  get entries(): readonly (readonly [string, Cursor])[] {
    return this.keys.map((key) => [key, this.at(key)] as const);
  }

  /** Two numbers, as in limits and ranges. */
  get band(): readonly [number, number] | undefined {
    const [low, high, more] = this.items;
    if (low?.number === undefined || high?.number === undefined || more !== undefined) return undefined;
    return [low.number, high.number];
  }
}
