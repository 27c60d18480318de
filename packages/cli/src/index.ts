export { main } from './main.ts';
export {
  assessStream,
  type StreamDone,
  type StreamOptions,
  type StreamProgress,
} from './stream/assessStream.ts';
