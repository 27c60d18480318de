/** Writes a text to its end. A reader that stops early (`dwellset … | head`) is no error. */
export function write(stream: NodeJS.WriteStream, text: string): Promise<void> {
  return new Promise((resolve, reject) => {
    const done = (error: NodeJS.ErrnoException | null | undefined) => {
      if (error && error.code !== 'EPIPE') reject(error);
      else resolve();
    };
    stream.once('error', done);
    stream.write(text, done);
  });
}
