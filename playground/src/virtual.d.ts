/** Where the documents lie, relative to the page. */
declare module 'virtual:policies' {
  const name: string;
  export default name;
}

/** A worker of its own, made by the bundler. */
declare module '*?worker' {
  const WorkerOf: new () => Worker;
  export default WorkerOf;
}
