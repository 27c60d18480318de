export type Segment = string | number;

/** JSON Pointer (RFC 6901) of a path of keys and indexes. */
export function pointerOf(path: readonly PropertyKey[]): string {
  return path.map((segment) => `/${escapeSegment(String(segment))}`).join('');
}

export function childPointer(pointer: string, segment: Segment): string {
  return `${pointer}/${escapeSegment(String(segment))}`;
}

export function parentPointer(pointer: string): string {
  return pointer.slice(0, Math.max(0, pointer.lastIndexOf('/')));
}

function escapeSegment(segment: string): string {
  return segment.replaceAll('~', '~0').replaceAll('/', '~1');
}
