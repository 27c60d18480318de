/** Hands a text to the browser as a file; nothing is sent anywhere. */
export function save(name: string, text: string): void {
  const url = URL.createObjectURL(new Blob([text], { type: 'application/json' }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

/** Larger files are nothing that this page keeps. */
export const LARGEST = 1024 * 1024;

/** The text of a file that somebody picked or dropped; the refusal as a sentence where it is too large. */
export async function textOfFile(file: File): Promise<{ text: string } | { refused: string }> {
  if (file.size > LARGEST) return { refused: `The file is larger than ${LARGEST} bytes and was not read.` };
  try {
    return { text: await file.text() };
  } catch {
    return { refused: 'The file could not be read.' };
  }
}
