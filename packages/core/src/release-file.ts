export {
  type OpenedReleaseFile,
  openReleaseFile,
  type ReleaseFile,
  type ReleaseFileRefusal,
  type ReleaseSignature,
  sealedText,
  signedText,
} from './release/releaseFile.ts';
