import { baseName, placed } from './placed.ts';
import type { LibraryDocument, LibraryHospital } from './shape.ts';

export function indexHospitals(documents: readonly LibraryDocument[]): Map<string, LibraryHospital> {
  const hospitals = new Map<string, LibraryHospital>();
  for (const document of documents) {
    const [folder, id, file] = document.path.split('/');
    if (folder !== 'hospitals' || id === undefined || file === undefined) continue;
    const known = hospitals.get(id) ?? { id, cases: new Map(), accepted: new Map() };
    const amendment = placed(document, 'amendment');
    const adoption = placed(document, 'adoption');
    const found = placed(document, 'case');
    const accepted = placed(document, 'accepted');
    hospitals.set(id, {
      ...known,
      ...(amendment && file === 'amendment.json' && { amendment }),
      ...(adoption && file === 'adoption.json' && { adoption }),
      cases: found ? new Map([...known.cases, [baseName(document.path), found]]) : known.cases,
      accepted: accepted ? new Map([...known.accepted, [accepted.value.set, accepted]]) : known.accepted,
    });
  }
  return hospitals;
}
